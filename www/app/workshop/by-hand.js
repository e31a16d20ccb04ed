// The Q values from five readings, as a fitter takes them with a meter and a
// tone: R. H. Small, JAES 20 (1972) 383, appendix. Pure.

/**
 * @param {{re: number, fs: number, zmax: number, f1: number, f2: number}} r ohms and hertz; f1 and f2 are where the
 *   impedance is the root of Re times Zmax
 * @returns {{qms: number, qes: number, qts: number, middle: number}|null} null where the readings do not go together
 */
export function qByHand({ re, fs, zmax, f1, f2 }) {
  const r0 = zmax / re;
  if (!(re > 0) || !(r0 > 1.05) || !(f1 > 0 && f1 < fs && fs < f2)) return null;
  const qms = fs * Math.sqrt(r0) / (f2 - f1);
  return { qms, qes: qms / (r0 - 1), qts: qms / r0, middle: Math.sqrt(f1 * f2) };
}
