import * as z from 'zod';
import { ownProduct, ownProducts, productKinds } from '../../src/job/own-product.ts';

/** What kinds of product a workshop keeps. */
export const productKind = z
  .enum(productKinds, { error: `The kind is one of: ${productKinds.join(', ')}.` })
  .meta({ title: 'Kind of product' });

export const productId = ownProducts.strip.shape.id;

/** A product that is to be kept; the service makes its id. */
export const productToKeep = z
  .discriminatedUnion(
    'kind',
    [
      ownProducts.strip.omit({ id: true }),
      ownProducts.driver.omit({ id: true }),
      ownProducts.dimmer.omit({ id: true }),
      ownProducts.cable.omit({ id: true }),
      ownProducts.profile.omit({ id: true }),
      ownProducts.cover.omit({ id: true }),
    ],
    { error: `kind says what the product is: one of ${productKinds.join(', ')}.` },
  )
  .meta({ id: 'ProductToKeep', title: 'Own product to be kept' });

/** A product of the workshop, with the version to be sent back when it is changed. */
export const keptProduct = z
  .strictObject({
    product: ownProduct,
    etag: z.string().describe('version of the product, to be sent back as If-Match'),
  })
  .meta({ id: 'KeptProduct', title: 'Own product' });

export const keptProducts = z
  .strictObject({ products: z.array(keptProduct) })
  .meta({ id: 'KeptProducts', title: 'Own products of the workshop' });

/** What is wrong with a cell of a table that was brought in, or with a whole row of it. */
const importProblem = z.strictObject({
  row: z.int().min(1).describe('row of the table from 1, which is the heading'),
  column: z.string().nullable().describe('heading of the column; null where it is the whole row'),
  sentence: z.string(),
});

/** What became of a table that was brought in. */
export const imported = z
  .strictObject({
    added: z.array(z.string()).describe('names of products that are new'),
    replaced: z.array(z.string()).describe('names of products that had other values'),
    same: z.int().describe('products that were there with the same values'),
    problems: z.array(importProblem).describe('the first 500 of them'),
    problemCount: z.int().describe('how many there are'),
    notTaken: z
      .string()
      .nullable()
      .describe('rows that were not taken, as CSV with the reason in the last column; null where all were'),
  })
  .meta({ id: 'Imported', title: 'What became of a table of products' });

export type ProductToKeep = z.infer<typeof productToKeep>;
export type KeptProduct = z.infer<typeof keptProduct>;
export type KeptProducts = z.infer<typeof keptProducts>;
export type Imported = z.infer<typeof imported>;
