import type { PlacedLabel } from './place-labels';
import type { Item, Scene, TextItem } from './scene';

const nameOf = ({ layer, at, text }: TextItem) => `${layer} ${at.join()} ${text}`;

/**
 * A scene whose words stand where they were placed and nowhere else, so that
 * every painter sets them alike; those that found no room are left out.
 *
 * @param placed  where words find room, of this scene
 * @param magnify  what sizes were multiplied by when they were placed
 */
export function settled(scene: Scene, placed: readonly PlacedLabel[], magnify: number): Scene {
  const rooms = new Map(placed.map((label) => [nameOf(label.item), label]));
  return scene.flatMap((item): Item[] => {
    if (item.kind !== 'text') return [item];
    const room = rooms.get(nameOf(item));
    if (!room) return [];
    const { further: _, stands: __, ...words } = item;
    const away = item.away + room.further / magnify;
    return [{ ...words, sides: [room.side], away, always: true }];
  });
}
