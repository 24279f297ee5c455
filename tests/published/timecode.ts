/**
 * Drop-frame timecode at 30000/1001, frame by label (SMPTE ST 12-1: labels 00 and 01 are skipped at each minute not
 * divisible by ten; title cited from memory). Recomputed by enumerating 330,000 labels.
 */
export const dropFrame2997: readonly (readonly [frame: number, timecode: string, seconds: number])[] = [
  [0, '00:00:00;00', 0],
  [1, '00:00:00;01', 0.03336666666666667],
  [29, '00:00:00;29', 0.9676333333333333],
  [30, '00:00:01;00', 1.001],
  [1799, '00:00:59;29', 60.026633333333336],
  [1800, '00:01:00;02', 60.06],
  [1801, '00:01:00;03', 60.09336666666667],
  [3597, '00:01:59;29', 120.0199],
  [3598, '00:02:00;02', 120.05326666666667],
  [17981, '00:09:59;29', 599.9660333333334],
  [17982, '00:10:00;00', 599.9994],
  [17983, '00:10:00;01', 600.0327666666667],
  [19781, '00:10:59;29', 660.0260333333333],
  [19782, '00:11:00;02', 660.0594],
  [53946, '00:30:00;00', 1799.9982],
  [107891, '00:59:59;29', 3599.9630333333334],
  [107892, '01:00:00;00', 3599.9964],
];

/** Frames with a label in 24 hours at 30000/1001, and the seconds they last. */
export const dropFrameDay = { frames: 2_589_408, seconds: 86_399.9136 };

/** Block times of a WebM file at its default tick of a millisecond (Matroska specification: TimestampScale). */
export const millisecondTimes = {
  2997: [0, 33, 67, 100, 133, 167, 200, 234, 267, 300, 334, 367, 400, 434, 467, 500],
  5994: [0, 17, 33, 50, 67, 83, 100, 117, 133, 150, 167, 184, 200, 217, 234, 250],
} as const;
