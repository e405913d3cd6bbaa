import { describe, expect, it } from 'vitest';
import { jobJsonSchema } from '../../src/index.ts';

interface Node {
  readonly type?: string;
  readonly maxItems?: number;
  readonly maxLength?: number;
  readonly maximum?: number;
  readonly [key: string]: unknown;
}

/** Places of a schema where a list, a text or a number has no end. */
function endless(node: Node, path: string): string[] {
  const isClosed = node.const !== undefined || node.enum !== undefined || node.pattern !== undefined;
  const open =
    (node.type === 'array' && node.maxItems === undefined) ||
    (node.type === 'string' && node.maxLength === undefined && !isClosed) ||
    (node.type === 'number' && node.maximum === undefined && !isClosed);
  const inner = Object.entries(node).flatMap(([key, value]) =>
    typeof value === 'object' && value !== null ? endless(value as Node, `${path}.${key}`) : [],
  );
  return open ? [path, ...inner] : inner;
}

describe('the job document', () => {
  it('has an end to every list, text and number', () => {
    expect(endless(jobJsonSchema() as Node, 'job')).toEqual([]);
  });
});
