// Wrong on purpose. Refused by: no-circle
import type { There } from './circle-there.ts';

export type Back = { readonly there: There | null };
