/** The API of the process that serves the pages; missing under `vite dev`. */
type Inject = (request: {
  method: string;
  url: string;
  headers: Record<string, string>;
  payload?: Buffer | undefined;
  remoteAddress?: string;
}) => Promise<{ statusCode: number; headers: Record<string, string | string[] | number | undefined>; rawPayload: Uint8Array }>;

declare global {
  namespace App {
    interface Error {
      message: string;
      code?: string;
      requestId?: string;
    }
    interface Locals {
      /** Cookies the API set while a page was made; handed on with the page. */
      apiCookies: string[];
      clientAddress: string;
    }
    interface Platform {
      inject: Inject;
    }
  }
}

export {};
