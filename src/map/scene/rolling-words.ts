import { rolled } from '../../domain/walk/rolling';
import type { Item, Scene, TextItem } from './scene';

/** Which words on one drawing stand for the same thing as which on another. */
const keyOf = ({ layer, who, mark }: TextItem) => [layer, who, mark].join('\n');

const isNumbered = (item: Item): item is TextItem =>
  item.kind === 'text' && item.who !== undefined && /\d/.test(item.text);

const textsOf = (scene: Scene) =>
  new Map(scene.filter(isNumbered).map((item) => [keyOf(item), item.text]));

/** Whether any number that stands on both drawings is another one. */
export function numbersDiffer(one: Scene, other: Scene): boolean {
  const texts = textsOf(one);
  return other.some(
    (item) => isNumbered(item) && (texts.get(keyOf(item)) ?? item.text) !== item.text,
  );
}

/**
 * A drawing whose numbers are part of the way from those of an earlier one: the
 * same items but for those whose number is still on its way.
 *
 * @param share  0 at the earlier numbers, 1 at its own
 */
export function rolledWords(from: Scene, to: Scene, share: number): Scene {
  if (share >= 1) return to;
  const texts = textsOf(from);
  return to.map((item) => {
    const before = isNumbered(item) ? texts.get(keyOf(item)) : undefined;
    if (!isNumbered(item) || before === undefined || before === item.text) return item;
    const [lines, ends] = [before.split('\n'), item.text.split('\n')];
    if (lines.length !== ends.length) return item;
    return { ...item, text: ends.map((end, i) => rolled(lines[i] ?? end, end, share)).join('\n') };
  });
}
