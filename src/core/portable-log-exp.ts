/**
 * Natural logarithm and exponential in additions, multiplications and divisions only. The language leaves the last
 * bits of Math.log and Math.exp to each engine; seeded draws must be bit-equal on every machine, so these are our own
 * (and no allow-listed package has them). Everything that is not a draw uses Math.
 */
const halves = new Uint32Array(2);
const double = new Float64Array(halves.buffer);
double[0] = 1;
/** Index of the word that holds sign and exponent: 1 on every little-endian machine. */
const high = halves[1] === 0 ? 0 : 1;

const ln2High = 6.9314718036912381649e-1;
const ln2Low = 1.90821492927058770002e-10;

/**
 * Natural logarithm of a positive, normal double (2.3e-308 to 1.8e308), within 1 unit in the last place; the same bits
 * on every machine. Throws RangeError on anything else.
 * Source: the method of FDLIBM's __ieee754_log (Sun Microsystems 1993): f = m - 1, s = f / (2 + f), minimax in s^2.
 */
export function portableLog(x: number): number {
  if (!(x >= 2.2250738585072014e-308 && x < Infinity)) {
    throw new RangeError(`a logarithm wants a positive normal number, got ${x}`);
  }
  double[0] = x;
  const word = halves[high] ?? 0;
  let exponent = (word >>> 20) - 1023;
  halves[high] = (word & 0xfffff) | 0x3ff00000;
  let mantissa = double[0];
  if (mantissa > Math.SQRT2) {
    mantissa /= 2;
    exponent += 1;
  }
  const f = mantissa - 1;
  const s = f / (2 + f);
  const z = s * s;
  const r =
    z *
    (6.66666666666673513e-1 +
      z *
        (3.999999999940941908e-1 +
          z *
            (2.857142874366239149e-1 +
              z *
                (2.222219843214978396e-1 +
                  z * (1.818357216161805012e-1 + z * (1.531383769920937332e-1 + z * 1.479819860511658591e-1))))));
  const half = 0.5 * f * f;
  return exponent * ln2High - (half - (s * (half + r) + exponent * ln2Low) - f);
}

/**
 * e to the power x for x from -700 to 700, within 1 unit in the last place; the same bits on every machine. Below -700
 * it returns 0. Throws RangeError above 700 or on NaN.
 * Source: the method of FDLIBM's __ieee754_exp (Sun Microsystems 1993): x = k ln 2 + r, a rational in r^2.
 */
export function portableExp(x: number): number {
  if (x < -700) return 0;
  if (!(x <= 700)) throw new RangeError(`an exponential wants at most 700, got ${x}`);
  const k = Math.floor(x * Math.LOG2E + 0.5);
  const upper = x - k * ln2High;
  const lower = k * ln2Low;
  const r = upper - lower;
  const t = r * r;
  const c =
    r -
    t *
      (1.66666666666666019037e-1 +
        t *
          (-2.77777777770155933842e-3 +
            t * (6.61375632143793436117e-5 + t * (-1.6533902205465251539e-6 + t * 4.13813679705723846039e-8))));
  const y = 1 - (lower - (r * c) / (2 - c) - upper);
  halves[high] = (1023 + k) << 20;
  halves[1 - high] = 0;
  return y * (double[0] ?? 0);
}
