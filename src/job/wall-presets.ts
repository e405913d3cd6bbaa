import type { Wall, WallLayerChoice, WallMaterial } from './wall.ts';

const layer = (material: WallMaterial, thickness_mm: number, timberShare = 0): WallLayerChoice => ({
  ...{ material, thickness_mm, timberShare },
  ...{ conductivity_W_per_mK: null, bridge_W_per_mK: null, emissivity: null, source: '' },
});

const board = layer('plasterboard', 12.5);
const plaster = layer('gypsum plaster', 13);

/** A gap of still air, closed all round. */
export const airGap: WallLayerChoice = layer('air, not ventilated', 20);

/** A layer to begin from. */
export const newLayer: WallLayerChoice = board;

/** A wall to begin from. */
interface WallPreset {
  readonly name: string;
  readonly wall: Wall;
}

const toRoom = (...layers: WallLayerChoice[]): Wall => ({ layers, beyond: 'room', beyond_degC: null });

/** Walls as they are commonly built (common practice, no single source); measure or ask what stands there. */
export const wallPresets: readonly WallPreset[] = [
  {
    name: 'timber stud wall, hollow',
    wall: toRoom(board, layer('air, not ventilated', 75, 0.1), board),
  },
  {
    name: 'timber stud wall, mineral wool',
    wall: toRoom(board, layer('mineral wool', 75, 0.1), board),
  },
  { name: 'brick wall, plastered', wall: toRoom(plaster, layer('brick', 102), plaster) },
  {
    name: 'concrete block wall, plastered',
    wall: toRoom(plaster, layer('dense concrete block', 100), plaster),
  },
  {
    name: 'outside cavity wall, mineral wool',
    wall: {
      layers: [plaster, layer('dense concrete block', 100), layer('mineral wool', 100), layer('brick', 102)],
      beyond: 'outside',
      beyond_degC: 35,
    },
  },
];
