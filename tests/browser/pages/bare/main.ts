/** The map library and nothing else: what opening the app is measured against. */
import { Map, setWorkerUrl } from 'maplibre-gl';
import workerUrl from 'maplibre-gl/dist/maplibre-gl-worker.mjs?worker&url';
import 'maplibre-gl/dist/maplibre-gl.css';

setWorkerUrl(workerUrl);
const container = document.createElement('div');
container.style.cssText = 'position:fixed;inset:0';
document.body.append(container);
const map = new Map({
  container,
  attributionControl: false,
  style: {
    version: 8,
    sources: {},
    layers: [{ id: 'paper', type: 'background', paint: { 'background-color': '#f4f1ea' } }],
  },
});
map.once('idle', () => (document.documentElement.dataset.drawn = 'yes'));
