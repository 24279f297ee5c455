// Wrong on purpose. Refused by: known-folder
import type { Known } from '../../../../../src/core/known.ts';

export type Homeless = Known<number, string>;
