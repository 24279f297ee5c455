/** The field's measure against the rule books (NFL rule 1, NCAA rule 1-2, NFHS rule 1-2-3; NFHS numbers from memory). */
import { expect, test } from 'vitest';
import { fieldWidth, marksOf } from '../../src/core/field/field-marks.ts';

test('hash marks lie 70 ft 9 in, 60 ft and 53 ft 4 in from the sideline, and the rows apart as the rules say', () => {
  const rules = { professional: [70.75, 18.5], college: [60, 40], school: [160 / 3, 160 / 3] } as const;
  for (const preset of ['professional', 'college', 'school'] as const) {
    const { hash } = marksOf(preset);
    expect(3 * hash).toBeCloseTo(rules[preset][0], 10);
    expect(3 * (fieldWidth - 2 * hash)).toBeCloseTo(rules[preset][1], 10);
  }
  expect(3 * fieldWidth).toBeCloseTo(160, 12);
});

test('numbers lie with bottoms 12 yards in for professionals and tops 9 yards in for colleges', () => {
  expect(marksOf('professional')).toMatchObject({ numberBottom: 12, numberTop: 14 });
  expect(marksOf('college')).toMatchObject({ numberTop: 9, numberBottom: 7 });
  expect(marksOf('school')).toMatchObject({ numberTop: 9, numberBottom: null });
});
