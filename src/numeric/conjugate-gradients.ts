import { innerProduct } from './inner-product.ts';

/**
 * Preconditioned conjugate gradients for a symmetric positive definite operator.
 *
 * @param system apply writes `A*v` into its second argument; precondition turns a residual into a correction in
 * place; start is the first guess and holds the solution on return; it ends when the residual's sum of sizes is below
 * tolerance, or below `reduction` of what it began with
 * @returns how many rounds it took and what is left of the residual
 */
export function conjugateGradients(system: {
  readonly apply: (v: Float64Array, into: Float64Array) => void;
  readonly precondition: (residual: Float64Array) => void;
  readonly rightSide: Float64Array;
  readonly start: Float64Array;
  readonly tolerance: number;
  readonly reduction: number;
  readonly mostRoundCount: number;
}): { readonly roundCount: number; readonly residual: number } {
  const { apply, precondition, rightSide, start: x } = system;
  const size = x.length;
  const image = new Float64Array(size);
  const residual = new Float64Array(size);
  apply(x, image);
  for (let i = 0; i < size; i++) residual[i] = rightSide[i]! - image[i]!;
  const z = new Float64Array(size);
  const direction = new Float64Array(size);
  let rho = 0;
  let left = sumOfSizes(residual);
  const enough = Math.max(system.tolerance, system.reduction * left);
  let roundCount = 0;
  for (; left > enough && roundCount < system.mostRoundCount; roundCount++) {
    z.set(residual);
    precondition(z);
    const next = dot(residual, z);
    const turn = roundCount === 0 ? 0 : next / rho;
    rho = next;
    for (let i = 0; i < size; i++) direction[i] = z[i]! + turn * direction[i]!;
    apply(direction, image);
    const step = rho / dot(direction, image);
    for (let i = 0; i < size; i++) {
      x[i] = x[i]! + step * direction[i]!;
      residual[i] = residual[i]! - step * image[i]!;
    }
    left = sumOfSizes(residual);
  }
  return { roundCount, residual: left };
}

function dot(a: Float64Array, b: Float64Array): number {
  return innerProduct(a, 0, b, 0, a.length);
}

function sumOfSizes(a: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += Math.abs(a[i]!);
  return sum;
}
