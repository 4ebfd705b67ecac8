/** Lays out the boxes of a sheet away from the page: a question in, its layout out. */
import { layoutSheetBoxes } from './box-layout';
import type { SheetQuestion } from './layout-away';

addEventListener('message', ({ data }: MessageEvent<SheetQuestion>) => {
  postMessage(layoutSheetBoxes(data.requests, data.points, data.window));
});
