/** The closed sets of words a study uses. Each is what a person reads on screen as well as what is stored. */
import { z } from 'zod';

export const hashes = ['left', 'middle', 'right'] as const;
export const directions = ['left', 'middle', 'right'] as const;
export const gaps = ['A', 'B', 'C', 'D', 'outside'] as const;
export const concepts = [
  'inside zone',
  'outside zone',
  'power',
  'counter',
  'toss',
  'draw',
  'trap',
  'duo',
  'lead',
  'sneak',
  'option',
  'pass',
  'other',
] as const;
export const schemes = ['zone', 'gap', 'other'] as const;
export const backAlignments = [
  'behind',
  'left of the passer',
  'right of the passer',
  'offset left',
  'offset right',
  'wide',
] as const;
export const pressures = ['none', 'slant', 'blitz', 'slant and blitz'] as const;
export const playResults = [
  'down',
  'touchdown',
  'out of bounds',
  'fumble lost',
  'safety',
  'incomplete',
  'no play',
] as const;
export const partKinds = ['run', 'protect', 'route', 'target', 'fake', 'return'] as const;
export const pointsOfAttack = ['won', 'stalemate', 'lost'] as const;
export const penetrations = ['none', 'late', 'early'] as const;
export const paths = ['on track', 'bend', 'bounce'] as const;
export const contactPlaces = ['backfield', 'line', 'second level', 'open field', 'sideline'] as const;
export const ballArms = ['left', 'right', 'both', 'wrong side'] as const;
export const fumbles = ['none', 'kept', 'lost'] as const;
export const outOfBounds = ['none', 'forced', 'chosen'] as const;
export const readSources = ['known', 'assumed'] as const;
export const angles = ['sideline', 'end zone', 'broadcast', 'other'] as const;
export const spanKinds = ['live', 'replay', 'graphic'] as const;
export const momentNames = [
  'snap',
  'exchange',
  'first read',
  'decision',
  'press',
  'plant',
  'cut',
  'first contact',
  'down',
] as const;
export const feet = ['left', 'right'] as const;
export const markStates = ['shown', 'not shown', 'unseen'] as const;
export const clearnesses = ['clear', 'partial', 'obscured'] as const;
export const holdsAnswers = ['yes', 'no', 'cannot tell'] as const;
export const laneStates = ['open', 'closing', 'filled'] as const;
export const chalkKinds = ['arrow', 'line', 'lane', 'ring', 'freehand', 'text', 'distance'] as const;
export const successRules = ['classic', 'college', 'own'] as const;
export const yardsModels = ['college', 'professional', 'professional with box'] as const;
export const hashPresets = ['college', 'professional', 'school'] as const;

export type MomentName = (typeof momentNames)[number];
export type Clearness = (typeof clearnesses)[number];
export type MarkState = (typeof markStates)[number];
export type Angle = (typeof angles)[number];
export type SpanKind = (typeof spanKinds)[number];
export type PartKind = (typeof partKinds)[number];

/** A row's name: a UUID, made where the row is made. */
export const id = z.uuid();
/** A frame's index in presentation order, from 0. */
export const frame = z.int().min(0);
/** Seconds on the film's own clock (the container's time of a frame). */
export const filmSeconds = z.number().min(0);
/** A short single line of text. */
export const line = z.string().max(200);
/** A longer text. */
export const text = z.string().max(20_000);
