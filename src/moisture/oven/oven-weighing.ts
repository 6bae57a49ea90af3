export interface OvenWeighing {
  /** Hours since the sample went into the oven. */
  readonly time_h: number;
  /** Gross, container included. */
  readonly mass_g: number;
}
