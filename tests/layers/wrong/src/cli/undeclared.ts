// Wrong on purpose. Refused by: cli, declared-package
import { parse } from 'acorn';
import { nowhere } from 'a-package-that-nobody-made';

export const reaches = [parse, nowhere];
