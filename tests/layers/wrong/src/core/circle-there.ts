import type { Back } from './circle-back.ts';

export type There = { readonly back: Back | null };
