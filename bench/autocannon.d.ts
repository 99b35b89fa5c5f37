/** What we use of autocannon, which brings no types of its own. */
declare module 'autocannon' {
  interface Ask {
    readonly method?: string;
    readonly path: string;
    readonly headers?: Readonly<Record<string, string>>;
    readonly body?: string;
    /** Makes a request out of the one before. */
    readonly setupRequest?: (request: Ask) => Ask;
  }
  interface Options {
    readonly url: string;
    readonly connections: number;
    /** Requests a second, all connections together. */
    readonly overallRate: number;
    /** [s] */
    readonly duration: number;
    readonly requests: readonly Ask[];
  }
  interface Result {
    /** [ms] */
    readonly latency: { readonly p50: number; readonly p97_5: number; readonly p99: number };
    readonly requests: { readonly total: number };
    readonly non2xx: number;
    readonly errors: number;
    readonly timeouts: number;
    readonly duration: number;
  }
  export default function autocannon(options: Options): Promise<Result>;
}
