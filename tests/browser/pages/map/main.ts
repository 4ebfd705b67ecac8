import { mount } from 'svelte';
import '../../../../src/ui/look/base.css';
import './page.css';
import Page from './Page.svelte';

mount(Page, { target: document.querySelector('#map')! });
