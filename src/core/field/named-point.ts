/** Points of the painted field that can be named and clicked. */
import { known, unknown, type Known } from '../known.ts';
import { endZoneDepth, fieldLength, fieldWidth, marksOf, type FieldPlace, type MarksPreset } from './field-marks.ts';

/** A side of the field as the offence sees it. */
export type FieldSide = 'left' | 'right';

/** What crosses a yard line: a sideline, a row of hash marks, or the edge of the numbers nearer or farther midfield. */
export type CrossingMark = 'sideline' | 'hash' | 'number top' | 'number bottom';

/** A goal: the offence's own (x 0) or the one it drives at (x 100). */
export type Goal = 'own' | 'far';

/** A point by name. `line` counts yards from the offence's own goal line, 0 to 100. */
export type NamedPoint =
  | { readonly kind: 'yard line'; readonly line: number; readonly mark: CrossingMark; readonly side: FieldSide }
  | { readonly kind: 'goal line'; readonly goal: Goal; readonly mark: 'sideline' | 'hash'; readonly side: FieldSide }
  | { readonly kind: 'pylon'; readonly goal: Goal; readonly line: 'goal line' | 'end line'; readonly side: FieldSide };

/** Why a name stands for no place. */
export type NamedPointProblem = 'off the field' | 'no such mark';

/** Marks that some levels paint elsewhere than others. */
export function dependsOnPreset(point: NamedPoint): boolean {
  return point.kind !== 'pylon' && point.mark !== 'sideline';
}

/**
 * Where a named point lies, in yards. Reasons: 'off the field' for a yard line that is not within 0 to 100, 'no such
 * mark' for numbers off the tens, or an edge the level's rules leave open. Pylons give the inside corner at the base.
 */
export function placeOf(point: NamedPoint, preset: MarksPreset): Known<FieldPlace, NamedPointProblem> {
  const fromLeft = (distance: number) => (point.side === 'left' ? distance : fieldWidth - distance);
  switch (point.kind) {
    case 'pylon': {
      const beyond = point.line === 'end line' ? endZoneDepth : 0;
      return known({ x: point.goal === 'own' ? -beyond : fieldLength + beyond, y: fromLeft(0) });
    }
    case 'goal line':
      return known({ x: point.goal === 'own' ? 0 : fieldLength, y: fromLeft(distanceOf(point.mark, preset) ?? 0) });
    case 'yard line': {
      if (!(point.line >= 0 && point.line <= fieldLength)) {
        return unknown('off the field', `Yard lines run from 0 to 100, got ${point.line}.`);
      }
      const numbers = point.mark === 'number top' || point.mark === 'number bottom';
      if (numbers && (point.line % 10 !== 0 || point.line === 0 || point.line === fieldLength)) {
        return unknown('no such mark', `Numbers stand on every tenth yard line from 10 to 90, not on ${point.line}.`);
      }
      const distance = distanceOf(point.mark, preset);
      if (distance === null) {
        return unknown('no such mark', `The ${preset} rules do not fix the ${point.mark}; click another mark.`);
      }
      return known({ x: point.line, y: fromLeft(distance) });
    }
  }
}

function distanceOf(mark: CrossingMark, preset: MarksPreset): number | null {
  const marks = marksOf(preset);
  switch (mark) {
    case 'sideline':
      return 0;
    case 'hash':
      return marks.hash;
    case 'number top':
      return marks.numberTop;
    case 'number bottom':
      return marks.numberBottom;
  }
}

/** The point in words, for messages: "own 20, left hash", "far goal line, right pylon". */
export function pointInWords(point: NamedPoint): string {
  switch (point.kind) {
    case 'pylon':
      return `${point.goal} ${point.line}, ${point.side} pylon`;
    case 'goal line':
      return `${point.goal} goal line, ${point.side} ${point.mark}`;
    case 'yard line': {
      const half = point.line === 50 ? 'the 50' : point.line < 50 ? `own ${point.line}` : `far ${100 - point.line}`;
      return `${half}, ${point.side} ${point.mark}`;
    }
  }
}
