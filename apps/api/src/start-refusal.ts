/** Exit codes of a start that was refused; 3 is kept for a store newer than the program. */
export const EXIT = { refused: 2, newerSchema: 3, storeMissing: 4, alreadyRunning: 5 } as const;

/** The process will not start, and says in one plain sentence why and what to do. */
export class StartRefusal extends Error {
  readonly exitCode: number;

  constructor(sentence: string, exitCode: number = EXIT.refused) {
    super(sentence);
    this.exitCode = exitCode;
  }
}
