// Wrong on purpose. Refused by the compiler of: src/core with 2591, 2580, 2304 (there is no process)
export const home = (): string | undefined => process.env['HOME'];
