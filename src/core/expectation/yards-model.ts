/** The hazard model of a gain: its coefficients, the three fits that come with the program, and reading a model file. */
import { type Known, known, unknown } from '../known.ts';
import shipped from './data/yards-models.json' with { type: 'json' };

/** Stretches of the gain that share their coefficients. */
export const segments = ['loss', '0', '1', '2', '3-5', '6-9', '10+'] as const;
export type Segment = (typeof segments)[number];

/** What a model may read of the situation, and the levels of each; the level with coefficient 0 is the reference. */
export const featureLevels = {
  down: { reference: '1', others: ['2', '3', '4'] },
  toGo: { reference: '10', others: ['1', '2', '3', '4-6', '7-9', '11+'] },
  yardsToGoal: { reference: '51-80', others: ['1-2', '3-5', '6-10', '11-20', '21-50', '81-99'] },
  shotgun: { reference: '0', others: ['1'] },
  box: { reference: '7', others: ['5-', '6', '8', '9', '10+'] },
  shortYardageLateDown: { reference: '0', others: ['1'] },
} as const;
export type Feature = keyof typeof featureLevels;

/** Ranges of yards that share one baseline value, after one for each yard from -4 to 20. */
export const alphaRanges = [
  ...Array.from({ length: 25 }, (_, at) => ({ key: String(at - 4), from: at - 4, to: at - 4 })),
  { key: '21-25', from: 21, to: 25 },
  { key: '26-30', from: 26, to: 30 },
  { key: '31-40', from: 31, to: 40 },
  { key: '41-60', from: 41, to: 60 },
  { key: '61-98', from: 61, to: 98 },
] as const;

/** The lowest gain told apart: everything lost beyond it counts as this one. */
export const lowestGain = -4;
/** The longest gain at which a run can end short of the goal line. */
export const longestShortGain = 98;

/** How far predictions miss on carries that were not fitted on; lower is better in all four. */
export type HeldOutScores = {
  /** Root mean squared error of the mean, yards. */
  readonly rmse: number;
  /** Continuous ranked probability score of the distribution, yards. */
  readonly crps: number;
  /** Mean of -ln P(gain). */
  readonly logScore: number;
  /** Mean of -ln of the chance given to the success or failure that came, classic rule. */
  readonly successLogLoss: number;
};

/** How residuals spread over carries and runners, and the carries' worth of shrinkage that follows. */
export type Spread = {
  /** Of one carry about its expectation. */
  readonly carrySd: number;
  /** Between runner-seasons, chance taken out; includes line, scheme and opponents. */
  readonly betweenRunnersSd: number;
  /** k of sum / (n + k). */
  readonly shrinkCarries: number;
  /** Correlation of alternate games' means; null where not measured. */
  readonly splitHalf: number | null;
};

/** One fit of the model, as kept in a model file (JSON). */
export type YardsModel = {
  readonly format: 'creasebook expected yards 1';
  /** Short name by which a study chooses it. */
  readonly key: string;
  readonly name: string;
  readonly source: string;
  /** Carries it was fitted on. */
  readonly carries: number;
  readonly features: readonly Exclude<Feature, 'shortYardageLateDown'>[];
  /** By key of alphaRanges: the logit of ending there in the reference situation. */
  readonly alpha: Readonly<Record<string, number>>;
  /** Added to it, by segment, feature and level; a level not named adds 0. */
  readonly beta: Readonly<Record<string, Readonly<Partial<Record<Feature, Readonly<Record<string, number>>>>>>>;
  /** Added one yard short of the line to gain and at it. */
  readonly sticks: { readonly oneShort: number; readonly atSticks: number };
  /** Mean of the gains of -4 and below, yards. */
  readonly meanOfLossesOfFourOrMore: number;
  /** Mean, standard deviation (yards) and success by the classic rule of the carries fitted on. */
  readonly marginal: { readonly mean: number; readonly sd: number; readonly success: number };
  readonly heldOut: {
    readonly carries: number;
    readonly trainedOn: number;
    readonly seasons: readonly string[];
    readonly constant: HeldOutScores;
    readonly model: HeldOutScores;
  } | null;
  readonly spread: { readonly delta: Spread; readonly success: Spread; readonly assumed: boolean };
};

/** The fits that come with the program; each carries the source of its figures. */
export const yardsModels: Readonly<Record<'college' | 'professional' | 'professional with box', YardsModel>> =
  shipped as Readonly<Record<'college' | 'professional' | 'professional with box', YardsModel>>;

/**
 * Reads a parsed model file (any JSON value). Reason 'not a model file' with the first thing wrong: the format's name,
 * an unknown feature or level, a coefficient that is missing or not finite, or a spread that is not above 0.
 */
export function yardsModelFrom(parsed: unknown): Known<YardsModel, 'not a model file'> {
  const wrong = firstFault(parsed);
  return wrong === null
    ? known(parsed as YardsModel)
    : unknown('not a model file', `This is no expected-yards model: ${wrong}.`);
}

type Fields = Readonly<Record<string, unknown>>;
const isFields = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

function firstFault(parsed: unknown): string | null {
  if (!isFields(parsed)) return 'it wants an object';
  if (parsed['format'] !== 'creasebook expected yards 1') {
    return `its format wants 'creasebook expected yards 1', got ${JSON.stringify(parsed['format'])}`;
  }
  for (const key of ['key', 'name', 'source']) {
    if (typeof parsed[key] !== 'string' || parsed[key] === '') return `${key} wants words`;
  }
  const { features, alpha, beta, sticks, spread, marginal } = parsed;
  if (!Array.isArray(features) || !features.every((one) => typeof one === 'string' && one in featureLevels)) {
    return `features want names among ${Object.keys(featureLevels).join(', ')}`;
  }
  if (!isFields(alpha)) return 'alpha is missing';
  for (const { key } of alphaRanges) if (!isLogit(alpha[key])) return `alpha wants a value at ${key}`;
  if (!isFields(beta)) return 'beta is missing';
  for (const [segment, effects] of Object.entries(beta)) {
    if (!segments.some((one) => one === segment)) return `beta wants segments ${segments.join(', ')}, got ${segment}`;
    if (!isFields(effects)) return `beta wants effects at ${segment}`;
    for (const [feature, levels] of Object.entries(effects)) {
      if (!isFeature(feature)) return `beta wants known features, got ${feature}`;
      if (!isFields(levels)) return `beta wants levels at ${segment}, ${feature}`;
      const allowed: readonly string[] = featureLevels[feature].others;
      for (const [level, value] of Object.entries(levels)) {
        if (!allowed.includes(level)) return `beta wants known levels of ${feature}, got ${level}`;
        if (!isLogit(value)) return `beta wants a value at ${segment}, ${feature}, ${level}`;
      }
    }
  }
  if (!isFields(sticks) || !isLogit(sticks['oneShort']) || !isLogit(sticks['atSticks'])) return 'sticks are missing';
  const lump = parsed['meanOfLossesOfFourOrMore'];
  if (!(isNumber(lump) && lump <= -4 && lump >= -99)) return 'the mean of losses of four or more wants -4 or below';
  if (!isFields(marginal) || !['mean', 'sd', 'success'].every((key) => isNumber(marginal[key]))) {
    return 'marginal mean, sd and success are missing';
  }
  if (!isFields(spread)) return 'spread is missing';
  for (const key of ['delta', 'success']) {
    const one = spread[key];
    if (!isFields(one)) return `spread of ${key} is missing`;
    for (const name of ['carrySd', 'betweenRunnersSd', 'shrinkCarries']) {
      const value = one[name];
      if (!(isNumber(value) && value > 0)) return `spread of ${key} wants ${name} above 0`;
    }
  }
  return null;
}

const isNumber = (value: unknown): value is number => typeof value === 'number' && Number.isFinite(value);
/** A logit beyond 30 either way would make a chance of exactly 0 or 1. */
const isLogit = (value: unknown): value is number => isNumber(value) && Math.abs(value) <= 30;
const isFeature = (name: string): name is Feature => name in featureLevels;
