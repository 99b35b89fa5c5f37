/** One thing to do at the console: what it takes, what it does in a sentence, and the exit code it ends with. */
export interface Command {
  readonly name: string;
  readonly usage: string;
  readonly words: string;
  run(args: readonly string[]): number | Promise<number>;
}
