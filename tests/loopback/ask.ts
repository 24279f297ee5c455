import { request, type IncomingHttpHeaders } from 'node:http';

export type Answer = { readonly status: number; readonly headers: IncomingHttpHeaders; readonly body: Buffer };

type Asked = { readonly method?: string; readonly headers?: Record<string, string>; readonly body?: string };

/** Asks over a real socket. Unlike fetch it sends any header, Host and Origin too, and follows no redirect. */
export function ask(address: string | URL, { method = 'GET', headers = {}, body }: Asked = {}): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const asking = request(address, { method, headers, agent: false }, (answer) => {
      const chunks: Buffer[] = [];
      answer.on('data', (chunk: Buffer) => chunks.push(chunk));
      answer.on('error', reject);
      answer.on('end', () =>
        resolve({ status: answer.statusCode ?? 0, headers: answer.headers, body: Buffer.concat(chunks) }),
      );
    });
    asking.on('error', reject);
    asking.end(body);
  });
}
