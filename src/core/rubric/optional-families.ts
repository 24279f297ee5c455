/**
 * Families a study may add to the default rubric. Their weights are 0 until the study gives them one; letters do not
 * meet those of the default rubric. The program's own opinion, no source.
 */
import type { RubricFamily } from './rubric.ts';

/** What happens after he is hit. */
export const contactFamily: RubricFamily = {
  key: 'contact',
  name: 'Contact',
  weight: 0,
  traits: [
    {
      key: 'balance',
      name: 'Balance',
      letter: 'l',
      weight: 0.5,
      anchors: [
        'A glancing hand or a trip takes him down in the open.',
        'Stays up but stumbles, and the next man ends it.',
        'Keeps his feet through the glancing hit a back is expected to keep.',
        'Keeps speed and direction through a square hit on one side.',
        'Hit squarely, never off his line, and the run is longer for it.',
      ],
    },
    {
      key: 'power',
      name: 'Power through contact',
      letter: 'w',
      weight: 0.5,
      anchors: [
        'Is stopped dead or pushed back by one man he saw coming.',
        'Stops where he is hit.',
        'Moves the pile or the tackler far enough to fall forward.',
        'Runs through one square tackle for yards.',
        'Carries more than one tackler, or breaks two, on a run that was over.',
      ],
    },
  ],
};

/** What he does when he is asked to protect the passer. */
export const protectionFamily: RubricFamily = {
  key: 'protection',
  name: 'Protection',
  weight: 0,
  traits: [
    {
      key: 'find',
      name: 'Find the rusher',
      letter: 'i',
      weight: 0.55,
      anchors: [
        'Never sees the rusher who is his; the passer is hit.',
        'Sees him late and gets only a piece.',
        'Looks inside out and picks up the man who is his.',
        'Sees the pressure before the snap or a change after it, and is waiting.',
        'Sorts out a pressure drawn to beat him and leaves no one free.',
      ],
    },
    {
      key: 'strike',
      name: 'Strike and hold',
      letter: 'o',
      weight: 0.45,
      anchors: [
        'Ducks, lunges or is run over; the rusher keeps his path.',
        'Slows him, but the passer has to move.',
        'Stops him square long enough for the throw.',
        'Strikes first with hands inside and ends the charge.',
        'Puts a bigger man on the ground or out of the play.',
      ],
    },
  ],
};

/** What he does as a receiver. */
export const receivingFamily: RubricFamily = {
  key: 'receiving',
  name: 'Receiving',
  weight: 0,
  traits: [
    {
      key: 'route',
      name: 'Route and release',
      letter: 'e',
      weight: 0.5,
      anchors: [
        'Is not where the throw is meant to go, or never gets out.',
        'Rounds the route or shows it, and is covered.',
        'Gets to the right place at the right depth.',
        'Sets his man up and is open by a step or two.',
        'Beats a good cover man alone and makes the play from it.',
      ],
    },
    {
      key: 'hands',
      name: 'Hands',
      letter: 'h',
      weight: 0.5,
      anchors: [
        'Drops a throw he is expected to catch.',
        'Fights the ball or lets it into his body and loses the run after it.',
        'Catches what is on him with his hands and turns upfield.',
        'Catches a throw away from his body without breaking stride.',
        'Makes the catch of the series, off balance or covered.',
      ],
    },
  ],
};
