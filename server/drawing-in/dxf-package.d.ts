/** What is used of the package `dxf`, which brings no types of its own. Anything may be missing in a broken file. */
declare module 'dxf' {
  export interface DxfPoint {
    readonly x?: number;
    readonly y?: number;
    readonly bulge?: number;
  }

  export interface DxfEntity {
    readonly type: string;
    readonly layer?: string;
    readonly start?: DxfPoint;
    readonly end?: DxfPoint;
    readonly vertices?: readonly DxfPoint[];
    readonly closed?: boolean;
    readonly paperSpace?: number;
    readonly extrusionZ?: number;
    readonly polygonMesh?: boolean;
    readonly polyfaceMesh?: boolean;
  }

  export interface DxfDrawing {
    readonly header: { readonly insUnits?: number };
    readonly entities: readonly DxfEntity[];
  }

  export function parseString(text: string): DxfDrawing;
}
