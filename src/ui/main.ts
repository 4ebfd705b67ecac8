import { mount } from 'svelte';
import { appOnDevice } from '../app/keeping/app-on-device.svelte';
import App from './App.svelte';
import './look/base.css';

const target = document.getElementById('app');
if (target) mount(App, { target });

void appOnDevice.start();
