import { expose } from 'comlink';
import { Opening } from './opening';

expose(new Opening());
