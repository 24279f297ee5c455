/** Units as brands: a number that carries what it measures, so that yards never meet seconds by accident. */
declare const unit: unique symbol;

/** A number measured in the named unit. */
export type Measured<Unit extends string> = number & { readonly [unit]: Unit };

/** Yards along or across the field, or gained. */
export type Yards = Measured<'yards'>;
/** Seconds of real time, or on a film's own clock (the doc of each value says which). */
export type Seconds = Measured<'seconds'>;
/** A frame's index in presentation order, from 0. */
export type FrameIndex = Measured<'frame index'>;
/** Pixels of a film's picture, from its top left corner. */
export type Pixels = Measured<'pixels'>;
/** Points on the scoreboard, or expected. */
export type Points = Measured<'points'>;

/** Brands a number of yards. */
export const yards = (value: number): Yards => value as Yards;
/** Brands a number of seconds. */
export const seconds = (value: number): Seconds => value as Seconds;
/** Brands a frame index. */
export const frameIndex = (value: number): FrameIndex => value as FrameIndex;
/** Brands a number of pixels. */
export const pixels = (value: number): Pixels => value as Pixels;
/** Brands a number of points. */
export const points = (value: number): Points => value as Points;
