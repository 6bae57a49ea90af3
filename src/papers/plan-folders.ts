/** Where the files of the two sides lie: nobody is to have both. */
export const planFolders = {
  ...{ knows: 'for-the-person-who-knows', readers: 'for-the-readers', trial: 'trial' },
  /** The plan with the arms, among the files of the person who knows: the trial's own folder has no arms until the end. */
  toLock: 'to-lock',
} as const;
