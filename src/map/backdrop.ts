import { getContext, setContext } from 'svelte';
import type { BackdropView } from '../app/places/backdrop.svelte';

const KEY = Symbol('backdrop');

/** What the maps inside a component lie on. */
export const provideBackdrop = (view: BackdropView) => setContext(KEY, view);

/** Null where a map has no backdrop: in a walk taken away, on a sheet. */
export const useBackdrop = () => getContext<BackdropView | undefined>(KEY) ?? null;
