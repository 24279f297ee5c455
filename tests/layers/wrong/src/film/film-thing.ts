export type Film = { readonly id: string };
