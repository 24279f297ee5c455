/**
 * The rubric a new study begins with. Weights, anchors and bars are the program's own opinion, editable in a study;
 * no source is claimed for them.
 */
import type { Rubric } from './rubric.ts';

/** Vision .38, footwork .32, judgment .22, ball security .08, and two bars that are provisional, not calibrated. */
export const defaultRubric: Rubric = {
  families: [
    {
      key: 'vision',
      name: 'Vision',
      weight: 0.38,
      traits: [
        {
          key: 'press',
          name: 'Press',
          letter: 'p',
          weight: 0.28,
          anchors: [
            'Shows his path at the exchange; a defender sits in the lane and the play is over there.',
            'Starts at a lane but leaves it before anyone moves, so the block loses its angle.',
            'Presses the lane the play gives him long enough for the block on it to be made.',
            "Carries his track to the blocker's heels and pulls a second defender a gap out of place.",
            'Holds the press until the unblocked defender commits, then runs through the place he left.',
          ],
        },
        {
          key: 'tempo',
          name: 'Tempo behind blocks',
          letter: 't',
          weight: 0.22,
          anchors: [
            'Runs into or past his own blockers; the tackler arrives before the block does.',
            'Reaches the crease a step early or a step late, when it is half closed.',
            'Fits his speed to the blocks and is there as the crease opens.',
            'Gathers behind a puller or a double team so that the block gains ground, then goes.',
            'Changes pace so that a block which was not ready becomes an opening, and leaves it at full speed.',
          ],
        },
        {
          key: 'crease',
          name: 'Crease choice',
          letter: 'c',
          weight: 0.28,
          anchors: [
            'Runs into a filled lane with an open one in front of him.',
            'Gets something from his lane but leaves a plainly better one in view.',
            'Takes the opening the play was drawn to make.',
            'Picks the better of two live creases, or the way back across, while it is still opening.',
            'Is on his way to an opening that did not exist when he chose it, because he read the defender.',
          ],
        },
        {
          key: 'penetration',
          name: 'Answer to penetration',
          letter: 'n',
          weight: 0.22,
          anchors: [
            'Stops or turns backward in front of the free defender; no gain becomes a loss.',
            'Gets by the first man but gives up his depth or his track, and the play ends where it began.',
            'One step off his track, shoulders square, back to the line.',
            'Slips the free defender without losing his track and takes the yards the other blocks earned.',
            'Makes the free defender miss behind the line and still reaches the second level.',
          ],
        },
      ],
    },
    {
      key: 'footwork',
      name: 'Footwork',
      weight: 0.32,
      traits: [
        {
          key: 'steps',
          name: 'Economy of steps',
          letter: 's',
          weight: 0.3,
          anchors: [
            'A false step or a dance lets pursuit arrive; the lane closes while his feet are busy.',
            'Stutters before the line: a step is spent that moved no one.',
            'Every step has a purpose; he is at the line when the play asks for it.',
            'Redirects in one or two steps, gives up no depth and beats the angle of the nearest man.',
            'No wasted plant from exchange to second level, and the tackler is caught between his own steps.',
          ],
        },
        {
          key: 'cut',
          name: 'Plant and cut',
          letter: 'u',
          weight: 0.3,
          anchors: [
            'Slips, or plants on the wrong foot, and is down or caught coming out of it.',
            'Needs gather steps before the plant, or rounds the turn and comes out wide.',
            'Plants on the outside foot with his hips under him and comes out where he means to go.',
            'Cuts sharply off one foot at speed and leaves the nearest tackler reaching.',
            'Cuts so late and so sharply that a defender who was square to him is beaten untouched.',
          ],
        },
        {
          key: 'pace',
          name: 'Pace out of the cut',
          letter: 'a',
          weight: 0.2,
          anchors: [
            'Stands still after the cut and is run down from behind.',
            'Takes three or more steps to be back at speed, and the lane has closed by then.',
            'Is back at running speed in a step or two and takes what the lane holds.',
            'Leaves the cut faster than he came into it and outruns an angle.',
            'Is at full speed by his second step; the man with the best angle never reaches him.',
          ],
        },
        {
          key: 'pads',
          name: 'Pad level',
          letter: 'd',
          weight: 0.2,
          anchors: [
            'Meets contact standing up and is driven back by it.',
            'Rises into the line; the first hit ends the run on the spot.',
            'Keeps his pads over his knees through the line and falls forward.',
            'Is lower than the tackler when they meet, and the run goes on a yard or two.',
            'Stays so low through traffic that two tacklers find nothing square to hit.',
          ],
        },
      ],
    },
    {
      key: 'judgment',
      name: 'Judgment',
      weight: 0.22,
      traits: [
        {
          key: 'sticks',
          name: 'Sticks and clock',
          letter: 'y',
          weight: 0.4,
          anchors: [
            'Forgets down, distance or clock: stops short of a line in reach, or steps out when it must run.',
            'Thinks of the line to gain too late and gives up a yard that mattered.',
            'Runs to the line to gain and keeps the sideline and the clock in mind.',
            'Takes the path that makes the first down or saves the clock over one that only looks longer.',
            'Knowing the situation is what gains the first down, the score or the clock.',
          ],
        },
        {
          key: 'risk',
          name: 'Risk taken',
          letter: 'r',
          weight: 0.35,
          anchors: [
            'Goes wide or back against numbers and turns a sure gain into a loss.',
            'Takes a chance that costs yards a plain run already had.',
            'The risk fits the situation: straight ahead when yards are short, a try where a miss costs little.',
            'Turns down a poor chance for a sure gain, or takes a fair one that pays.',
            'Gets a hard choice right at full speed, and the series turns on it.',
          ],
        },
        {
          key: 'finish',
          name: 'Finish of the run',
          letter: 'f',
          weight: 0.25,
          anchors: [
            'Goes down or out when no one made him, short of what was there.',
            'Drifts or braces at the end and lets the tackler choose the spot.',
            'Ends the run going forward.',
            'Drives through the last tackler for yards, ball covered.',
            'Breaks or drags the last tackle and turns an ended run into a first down or a score.',
          ],
        },
      ],
    },
    {
      key: 'security',
      name: 'Ball security',
      weight: 0.08,
      traits: [
        {
          key: 'ball',
          name: 'Ball security',
          letter: 'b',
          weight: 1,
          anchors: [
            'The ball is on the ground, or stays up only by luck.',
            'Carries it loose or in the arm nearest the tackler; it swings from his body in traffic.',
            'Has it tight in the arm away from the tackler before contact.',
            'Changes arms in time and covers with both hands in a crowd.',
            'Keeps it through a clean punch or pull at the ball, and the run goes on.',
          ],
        },
      ],
    },
  ],
  bars: [
    { key: 'professional', name: 'A professional roster', value: 3.4, calibrated: false },
    { key: 'college', name: 'A college starter', value: 2.9, calibrated: false },
  ],
};
