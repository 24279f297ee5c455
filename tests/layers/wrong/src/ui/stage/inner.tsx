export type Inner = { readonly pins: number };
