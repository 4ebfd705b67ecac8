import type { MapMouseEvent, MapTouchEvent } from 'maplibre-gl';
import type { MapTool } from '../../app/lay-out/map-tool';
import { placeAt, type Size } from '../camera';
import type { MapView } from '../screen/map-view.svelte';

/** How far off what is meant a pointer or a finger may be, px. */
export const POINTER_REACH = 12;
const FINGER_REACH = 24;

/**
 * Carries a tool over the map: moves and drags of mouse and finger go to it. A
 * drag the tool takes hold of does not move the map; two fingers always do.
 * Presses come from the map itself, which tells them from drags.
 *
 * @returns puts the tool away
 */
export function carry(view: MapView, tool: MapTool): () => void {
  const { map } = view;
  let held = false;
  const size = (): Size => {
    const { clientWidth, clientHeight } = map.getContainer();
    return [clientWidth, clientHeight];
  };
  const at = ({ point }: MapMouseEvent | MapTouchEvent) =>
    placeAt(view.seen, size(), [point.x, point.y]);
  const reach = ({ type }: MapMouseEvent | MapTouchEvent) => {
    const { west, east } = view.seen;
    const px = type.startsWith('touch') ? FINGER_REACH : POINTER_REACH;
    return (px * (east - west)) / size()[0];
  };

  const down = (event: MapMouseEvent | MapTouchEvent) => {
    if ('points' in event && event.points.length > 1) return;
    held = tool.grab(at(event), reach(event));
    if (held) event.preventDefault();
  };
  const move = (event: MapMouseEvent | MapTouchEvent) => {
    if (held) tool.drag(at(event), reach(event));
    else if (event.type === 'mousemove') tool.point(at(event), reach(event));
  };
  const up = () => {
    if (held) tool.drop();
    held = false;
  };
  const out = () => tool.point(null, 0);

  const listening = [
    map.on('mousedown', down),
    map.on('touchstart', down),
    map.on('mousemove', move),
    map.on('touchmove', move),
    map.on('mouseup', up),
    map.on('touchend', up),
    map.on('touchcancel', up),
    map.on('mouseout', out),
  ];
  map.doubleClickZoom.disable();
  const holder = map.getCanvasContainer();
  holder.style.cursor = 'crosshair';
  return () => {
    for (const one of listening) one.unsubscribe();
    map.doubleClickZoom.enable();
    holder.style.cursor = '';
  };
}
