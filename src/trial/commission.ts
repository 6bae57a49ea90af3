/** What is known of the opinion beside the trial: who wrote it, for whom and on what. Whatever nobody stated is absent. */
export interface Commission {
  /** SHA-256 over `commission.json` and its photographs, as the trial's is over the trial's files. */
  readonly fingerprint: string;
  readonly author?: string;
  readonly qualification?: string;
  readonly client?: string;
  readonly instruction?: string;
  readonly questions: readonly string[];
  /** ISO date, as all days here. */
  readonly instructedOn?: string;
  /** The day that the opinion bears. */
  readonly opinionOn?: string;
  readonly inspectedBy?: string;
  readonly inspectedOn?: string;
  readonly site?: string;
  readonly walls?: string;
  readonly materials?: string;
  readonly documents: readonly string[];
  readonly interests?: string;
  readonly photographs: readonly Photograph[];
  readonly references: readonly string[];
  /** The words to stand above the signature. */
  readonly declaration?: string;
}

export interface Photograph {
  readonly file: string;
  readonly caption: string;
  /** As it lies in the folder; what is shown of it is scaled, and bears nothing but the picture. */
  readonly bytes: Uint8Array;
}
