/** The invented schools, runners and evaluators of the demo season. */
export const TEAMS = [
  { id: 'harlan-ridge', name: 'Harlan Ridge', colours: { primary: '#7c2537', secondary: '#e8b04a' } },
  { id: 'coldwater', name: 'Coldwater', colours: { primary: '#3a678f', secondary: '#c3c9cd' } },
  { id: 'pell-harbor', name: 'Pell Harbor', colours: { primary: '#1f5a57', secondary: '#f0f0ea' } },
] as const;
export type TeamId = (typeof TEAMS)[number]['id'];

export const RUNNERS = [
  {
    id: 'okafor-lyle',
    name: 'Dez Okafor-Lyle',
    teamId: 'harlan-ridge',
    jersey: 22,
    classYear: 'junior',
    heightInches: 70,
    weightPounds: 207,
  },
  {
    id: 'brask',
    name: 'Tavian Brask',
    teamId: 'harlan-ridge',
    jersey: 5,
    classYear: 'sophomore',
    heightInches: 71,
    weightPounds: 196,
  },
  {
    id: 'quillane',
    name: 'Jonah Quillane',
    teamId: 'coldwater',
    jersey: 28,
    classYear: 'senior',
    heightInches: 72,
    weightPounds: 218,
  },
] as const;
export type RunnerId = (typeof RUNNERS)[number]['id'];

export const EVALUATORS = [
  { id: 'amari', name: 'R. Amari' },
  { id: 'osgaard', name: 'T. Osgaard' },
] as const;
export type EvaluatorId = (typeof EVALUATORS)[number]['id'];

/** Jersey numbers by slot, in the order of the formation's slots. */
export const JERSEYS: Readonly<
  Record<TeamId, { readonly offence: readonly string[]; readonly defence: readonly string[] }>
> = {
  'harlan-ridge': {
    offence: ['54', '66', '63', '71', '74', '87', '84', '3', '11', '12', '22'],
    defence: ['94', '97', '90', '58', '45', '50', '41', '4', '21', '25', '8'],
  },
  coldwater: {
    offence: ['60', '67', '61', '76', '72', '88', '46', '1', '15', '10', '28'],
    defence: ['91', '97', '98', '90', '44', '52', '9', '2', '24', '30', '7'],
  },
  'pell-harbor': {
    offence: ['55', '64', '68', '75', '77', '82', '40', '6', '18', '14', '29'],
    defence: ['92', '99', '95', '57', '48', '51', '34', '20', '26', '31', '13'],
  },
};
