/** A column of a table on paper. */
export interface TableColumn {
  readonly label: string;
  readonly unit: string;
  readonly align: 'left' | 'right';
  /** Room to write in by hand, mm; 0 for a column that is printed. */
  readonly write_mm: number;
  /** Heading over several neighbouring columns; empty for none. */
  readonly group: string;
}

/** Rows of text under columns; `marked` rows carry the sign of a change. */
export interface Table {
  readonly title: string;
  readonly columns: readonly TableColumn[];
  readonly rows: readonly (readonly string[])[];
  readonly marked: ReadonlySet<number>;
  /** The revision that the marked rows changed in. */
  readonly revision?: string;
  /** What part of it this is, after its title. */
  readonly part?: string;
  /** What every row says alike, above them. */
  readonly caption?: readonly string[];
  /** Short cells under heads that may stand upright, so that a long table goes on beside itself. */
  readonly isShort?: boolean;
  /** Rows as paragraphs in columns: the first cell before the second, or as many cells as `lead` says in a line of their own. */
  readonly text?: {
    readonly lead: number | 'hanging' /** With a box to tick behind the hanging cell. */;
    readonly isTicked?: boolean;
  };
}

/** Name by which something leads to a row of a table. */
export const anchorOf = (title: string, ref: string): string => `${title}: ${ref}`;

/** A table as it is headed. */
export const headingOf = ({ title, part }: Table): string =>
  part === undefined || part === '' ? title : `${title}: ${part}`;
