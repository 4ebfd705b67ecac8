import { mount } from 'svelte';
import { openTaken } from '../../../app/walk/taken';
import '../../look/base.css';
import FileWalk from './FileWalk.svelte';

const target = document.getElementById('app');
const opened = openTaken(document.getElementById('walk')?.textContent ?? '');
if (target && opened.ok) mount(FileWalk, { target, props: { site: opened.value } });
else if (target && !opened.ok) target.textContent = opened.problem;
