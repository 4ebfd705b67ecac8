import type { Work } from './work';

/** Works and every work behind their numbers, each once: the first before what it rests on. */
export function worksBehind(works: readonly Work[]): Work[] {
  const seen = new Map<string, Work>();
  const take = (work: Work) => {
    const key = `${work.title} ${work.answer.value}`;
    if (seen.has(key)) return;
    seen.set(key, work);
    for (const { from } of work.terms) if (from.kind === 'work') take(from.work);
  };
  works.forEach(take);
  return [...seen.values()];
}
