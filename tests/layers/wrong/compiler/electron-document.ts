// Wrong on purpose. Refused by the compiler of: electron with 2584 (there is no document)
export const title = (): string => document.title;
