/** How the lines of a layer are drawn: width and dashes in millimetres of the paper. */
export interface Pen {
  readonly width_mm: number;
  readonly colour: string;
  readonly dash_mm: readonly number[];
  /** Number of the nearest colour of the 255 that DXF knows. */
  readonly dxfColour: number;
}

const solid = (width_mm: number, colour = '#111111', dxfColour = 7): Pen => ({
  width_mm,
  colour,
  dash_mm: [],
  dxfColour,
});

/**
 * Layers by content, the same on paper and in DXF. Line widths after ISO 128-2 in the group 0.5 mm: outlines 0.5,
 * lesser edges 0.35, dimensions and hatching 0.18, dashed for what is hidden, chain for centre lines.
 */
export const layers = {
  PANEL: solid(0.5),
  /** Where the wall turns. */
  CORNERS: { ...solid(0.25, '#333333', 2), dash_mm: [4, 0.8, 0.6, 0.8] },
  OPENINGS: solid(0.35),
  KEEP_OUTS: { ...solid(0.25, '#555555', 8), dash_mm: [2, 1] },
  OPENING_DIAGONALS: solid(0.13, '#777777', 8),
  SLOTS: solid(0.18),
  HUNG: solid(0.25),
  SLOT_AXES: { ...solid(0.13, '#555555', 8), dash_mm: [4, 0.8, 0.6, 0.8] },
  STRIP: solid(0.18, '#c8730a', 30),
  DARK_ENDS: solid(0.18, '#b9b9b9', 9),
  FEED_POINTS: solid(0.25, '#111111', 1),
  STARTS: solid(0.18, '#111111', 1),
  CABLES: { ...solid(0.25, '#1f4f8b', 5), dash_mm: [2, 1] },
  CABLE_REFS: solid(0.18, '#1f4f8b', 5),
  DRIVER_PLACES: { ...solid(0.35, '#111111', 3), dash_mm: [3, 1] },
  DRIVERS: solid(0.25, '#111111', 3),
  EXITS: solid(0.25, '#111111', 3),
  TAPS: solid(0.25, '#1f4f8b', 5),
  DRIVER_NAMES: solid(0.18, '#111111', 3),
  BOARDS: solid(0.5),
  BATTENS: solid(0.35),
  COVER: solid(0.35, '#3b6f8f', 4),
  ALUMINIUM_FLAT: solid(0.35, '#666666', 8),
  ALUMINIUM_PROFILE: solid(0.35, '#666666', 8),
  HATCHING: solid(0.13, '#8a8a8a', 8),
  BREAKS: solid(0.25),
  DIMENSIONS: solid(0.18, '#333333', 2),
  DIMENSION_STROKES: solid(0.25, '#111111', 2),
  DEPTH_AVAILABLE: { ...solid(0.25, '#1f4f8b', 5), dash_mm: [2, 1] },
  LETTERING: solid(0.18),
  /** Names of the fields of a title block. */
  LABELS: solid(0.18, '#555555', 8),
  CIRCUIT: solid(0.35),
  FRAME: solid(0.7),
  RULES: solid(0.13, '#777777', 8),
  /** Bare paper beneath lettering; on sheets only. */
  PAPER: solid(0, '#ffffff', 255),
  SHADE: solid(0.13, '#ececec', 9),
  MARKED: solid(0.18, '#b3261e', 1),
} as const satisfies Record<string, Pen>;

export type Layer = keyof typeof layers;
