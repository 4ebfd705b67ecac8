import { expose } from 'comlink';
import { Importing } from './importing';

expose(new Importing());
