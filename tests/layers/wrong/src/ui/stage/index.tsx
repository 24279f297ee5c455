export type Stage = { readonly play: string };
