/** The pages and their charts, as the rooms, the exports and the board use them. */
export { cautionLine, cautions } from './cautions.ts';
export { DeltaHistogram, DeltaTable } from './delta-histogram.tsx';
export { DossierPages, type DossierPagesProps, type Paper } from './dossier-pages.tsx';
export { EvidenceCard, type StillSource } from './evidence-card.tsx';
export { GamesTable } from './games-table.tsx';
export { GradePlot, type GradePlotProps } from './grade-plot.tsx';
export { GradeTable } from './grade-table.tsx';
export { Reason } from './reason.tsx';
export { ResultsTable } from './results-table.tsx';
export { RunningDelta, RunningDeltaTable, type RunningDeltaProps } from './running-delta.tsx';
export { Behind, Delta, Share } from './share-and-delta.tsx';
export { SplitTable } from './split-table.tsx';
export { Verdict } from './verdict.tsx';
