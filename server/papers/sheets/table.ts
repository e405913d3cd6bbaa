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
}
