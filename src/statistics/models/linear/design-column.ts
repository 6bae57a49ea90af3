/** One named column of a design: as many values as there are observations. */
export interface DesignColumn {
  readonly name: string;
  readonly values: readonly number[];
}
