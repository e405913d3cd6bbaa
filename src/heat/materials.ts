/** A material of the build-up, with where its numbers come from. */
export interface Material {
  readonly name: string;
  readonly conductivity_W_per_mK: number;
  /** Least and most that goes by the name, where that is more than boards of one name differ by. */
  readonly conductivityRange?: { readonly low: number; readonly high: number };
  /** Total hemispherical emissivity near 300 K. */
  readonly emissivity: number;
  /** Burns or chars, and belongs to the timber bands. */
  readonly timber: boolean;
  readonly source: string;
}

const iso = 'ISO 10456:2007, Table 3 (secondary copy)';
const woods = 'ASHRAE Handbook of Fundamentals, woods across the grain (secondary copy)';

/**
 * Conductivities at 10 to 23 degC, timber across the grain, and emissivities of the usual surface; the
 * emissivities are handbook values (Incropera et al., Table A.11, from memory), lacquered or raw alike.
 * Check: `heat-material-*` compares the ISO 10456 values with the print.
 */
export const materials = {
  'timber-450': {
    name: 'Softwood, 450 kg/m³',
    conductivity_W_per_mK: 0.12,
    emissivity: 0.9,
    timber: true,
    source: iso,
  },
  'timber-500': {
    name: 'Timber, 500 kg/m³',
    conductivity_W_per_mK: 0.13,
    emissivity: 0.9,
    timber: true,
    source: iso,
  },
  'timber-700': {
    name: 'Hardwood, 700 kg/m³',
    conductivity_W_per_mK: 0.18,
    emissivity: 0.9,
    timber: true,
    source: iso,
  },
  oak: { name: 'Oak', conductivity_W_per_mK: 0.17, emissivity: 0.9, timber: true, source: woods },
  ash: { name: 'Ash', conductivity_W_per_mK: 0.155, emissivity: 0.9, timber: true, source: woods },
  maple: { name: 'Maple', conductivity_W_per_mK: 0.165, emissivity: 0.9, timber: true, source: woods },
  birch: { name: 'Birch', conductivity_W_per_mK: 0.175, emissivity: 0.9, timber: true, source: woods },
  'plywood-500': {
    name: 'Plywood, 500 kg/m³',
    conductivity_W_per_mK: 0.13,
    emissivity: 0.9,
    timber: true,
    source: iso,
  },
  'plywood-700': {
    name: 'Birch plywood, 700 kg/m³',
    conductivity_W_per_mK: 0.17,
    // Light plywood, 350 kg/m³, between the 0.09 of 300 and the 0.13 of 500; the heaviest 15 % over the entry.
    conductivityRange: { low: 0.1, high: 0.2 },
    emissivity: 0.9,
    timber: true,
    source: iso,
  },
  'mdf-600': {
    name: 'MDF, 600 kg/m³',
    conductivity_W_per_mK: 0.14,
    emissivity: 0.9,
    timber: true,
    source: iso,
  },
  'mdf-800': {
    name: 'MDF, 800 kg/m³',
    conductivity_W_per_mK: 0.18,
    // Light MDF, 500 kg/m³, between the 0.10 of 400 and the 0.14 of 600.
    conductivityRange: { low: 0.12, high: 0.21 },
    emissivity: 0.9,
    timber: true,
    source: iso,
  },
  'particleboard-600': {
    name: 'Particleboard, 600 kg/m³',
    conductivity_W_per_mK: 0.14,
    emissivity: 0.9,
    timber: true,
    source: iso,
  },
  osb: { name: 'OSB, 650 kg/m³', conductivity_W_per_mK: 0.13, emissivity: 0.9, timber: true, source: iso },
  'plasterboard-700': {
    name: 'Plasterboard, 700 kg/m³',
    conductivity_W_per_mK: 0.21,
    // To the 0.25 of 900 kg/m³.
    conductivityRange: { low: 0.18, high: 0.25 },
    emissivity: 0.9,
    timber: false,
    source: iso,
  },
  'plasterboard-900': {
    name: 'Plasterboard, 900 kg/m³',
    conductivity_W_per_mK: 0.25,
    emissivity: 0.9,
    timber: false,
    source: iso,
  },
  'aluminium-mill': {
    name: 'Aluminium alloy, mill finish',
    conductivity_W_per_mK: 160,
    emissivity: 0.09,
    timber: false,
    source: iso,
  },
  'aluminium-anodised': {
    name: 'Aluminium alloy, anodised',
    conductivity_W_per_mK: 160,
    emissivity: 0.8,
    timber: false,
    source: iso,
  },
  'aluminium-foil': {
    name: 'Aluminium foil, bright',
    conductivity_W_per_mK: 160,
    emissivity: 0.05,
    timber: false,
    source: iso,
  },
  steel: {
    name: 'Steel, galvanised',
    conductivity_W_per_mK: 50,
    emissivity: 0.25,
    timber: false,
    source: iso,
  },
  pmma: { name: 'PMMA', conductivity_W_per_mK: 0.18, emissivity: 0.9, timber: false, source: iso },
  polycarbonate: {
    name: 'Polycarbonate',
    conductivity_W_per_mK: 0.2,
    emissivity: 0.9,
    timber: false,
    source: iso,
  },
  felt: {
    name: 'PET acoustic felt',
    conductivity_W_per_mK: 0.04,
    emissivity: 0.9,
    timber: false,
    source: "makers' sheets, 150 to 200 kg/m³ (from memory)",
  },
  'mineral-wool': {
    name: 'Mineral wool',
    conductivity_W_per_mK: 0.036,
    emissivity: 0.9,
    timber: false,
    source: 'declared values (secondary copy)',
  },
  silicone: {
    name: 'Silicone, pure',
    conductivity_W_per_mK: 0.35,
    emissivity: 0.9,
    timber: false,
    source: iso,
  },
} as const satisfies Readonly<Record<string, Material>>;
