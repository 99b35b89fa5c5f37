/** As much of it as the load bench uses; it comes without types of its own. */
declare module 'autocannon' {
  export interface CannonRequest {
    readonly method: string;
    readonly path: string;
    readonly headers: Readonly<Record<string, string>>;
    readonly body?: string;
  }
  export interface CannonClient {
    setRequests(requests: readonly CannonRequest[]): void;
  }
  export interface CannonOptions {
    readonly url: string;
    readonly connections: number;
    readonly amount?: number;
    readonly duration?: number;
    readonly overallRate?: number;
    readonly timeout?: number;
    readonly setupClient?: (client: CannonClient) => void;
  }
  export interface CannonResult {
    readonly '2xx': number;
    readonly non2xx: number;
    readonly errors: number;
    readonly timeouts: number;
    readonly duration: number;
    readonly requests: { readonly total: number; readonly average: number };
    /** Whole milliseconds. */
    readonly latency: { readonly p50: number; readonly p97_5: number; readonly p99: number; readonly max: number };
  }
  export default function autocannon(options: CannonOptions): Promise<CannonResult>;
}
