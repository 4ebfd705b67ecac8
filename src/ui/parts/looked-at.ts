import { getContext, setContext } from 'svelte';

const KEY = Symbol('looked at');

/** From here down the site is shown to others: nothing is decided, and no comment is read or made. */
export const provideLookedAt = () => setContext(KEY, true);

export const isLookedAt = () => getContext<boolean | undefined>(KEY) === true;
