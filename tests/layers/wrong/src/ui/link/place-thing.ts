export type Place = { readonly room: string };
