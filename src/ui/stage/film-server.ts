import { openFrameServer, type FrameServer } from '../../film/frame-server/frame-server.ts';

const cacheBytes = 512 * 1024 * 1024;
let server: FrameServer | null = null;

/** The one frame server of this window: every film on screen shares its cache's budget. */
export const frameServer = (): FrameServer => (server ??= openFrameServer({ budgetBytes: cacheBytes }));
