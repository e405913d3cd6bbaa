import { materials } from './materials.ts';

/** A material of the wall behind a piece. */
interface WallMaterialData {
  readonly conductivity_W_per_mK: number;
  readonly source: string;
}

const iso = 'ISO 10456:2007, Table 3 (from memory)';
const cibse = 'CIBSE Guide A, Section 3, and BRE BR 443 (from memory)';
const declared = 'declared values, the lower ones (from memory)';

const ofBoard = ({ conductivity_W_per_mK, source }: (typeof materials)[keyof typeof materials]) => ({
  conductivity_W_per_mK,
  source,
});

/** Timber that bridges a layer: 500 kg/m3. */
export const bridgeTimber_W_per_mK = materials['timber-500'].conductivity_W_per_mK;

/**
 * What walls are built of. Where a name covers much, the value is a low one: what conducts less lets less heat out of the
 * piece before it, which is the warm side.
 */
export const wallMaterials = {
  plasterboard: ofBoard(materials['plasterboard-700']),
  plaster: { conductivity_W_per_mK: 0.4, source: iso },
  softwood: ofBoard(materials['timber-450']),
  osb: ofBoard(materials.osb),
  plywood: ofBoard(materials['plywood-700']),
  mdf: ofBoard(materials['mdf-800']),
  brick: { conductivity_W_per_mK: 0.56, source: cibse },
  'dense-block': { conductivity_W_per_mK: 1.13, source: cibse },
  'aerated-block': { conductivity_W_per_mK: 0.11, source: cibse },
  concrete: { conductivity_W_per_mK: 1.15, source: iso },
  'mineral-wool': { conductivity_W_per_mK: 0.035, source: declared },
  eps: { conductivity_W_per_mK: 0.033, source: declared },
  pur: { conductivity_W_per_mK: 0.022, source: declared },
  'wood-fibre': { conductivity_W_per_mK: 0.038, source: declared },
} as const satisfies Readonly<Record<string, WallMaterialData>>;
