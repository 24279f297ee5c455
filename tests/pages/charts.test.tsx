import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import {
  DeltaHistogram,
  DeltaTable,
  GamesTable,
  GradePlot,
  GradeTable,
  ResultsTable,
  RunningDelta,
  RunningDeltaTable,
  SplitTable,
} from '../../src/pages/index.ts';
import { carriesOf, deltaOf, emptyDossier, known, sheetOf, unknown } from './dossier-fixture.ts';
import { textOf } from './text-of.ts';

const sheet = Object.freeze(sheetOf());
const { bars } = sheet.rubric.body;

describe('the grade plot', () => {
  const markup = renderToStaticMarkup(
    <GradePlot name="Grades of A" families={sheet.families} bars={bars} overall={sheet.overall} />,
  );

  it('has an accessible name, and each grade one with its interval', () => {
    expect(markup).toContain('aria-label="Grades of A: dots with 95 % intervals on the line from 1 to 5"');
    expect(markup).toContain('aria-label="3.9, 95 % interval 3.5 to 4.3"');
    expect(markup).toContain('aria-label="3.3, 95 % interval 2.6 to 3.9, thin"');
  });

  it('stands each dot at its grade on the line from 1 to 5', () => {
    // 3.9 of 1-5 is .725 of the way, and the line stands in by 4 % at either end.
    expect(markup).toContain(`cx="${Number((4 + 0.725 * 92).toFixed(3))}%"`);
  });

  it('draws thin grades as open dots and both bars by name with their standing', () => {
    expect(markup.match(/dot dot-thin/g)?.length).toBe(
      sheet.families
        .flatMap(({ grade, traits }) => [grade, ...traits.map((one) => one.grade)])
        .filter((grade) => grade.known && grade.value.thin).length,
    );
    expect(markup).toContain('A professional roster 3.4, provisional');
    expect(markup).toContain('A college starter 2.9, provisional');
  });

  it('prints the carries and games behind each grade', () => {
    expect(markup).toMatch(/Answer to penetration<\/th>.*?<td class="count">17<\/td><td class="count">2<\/td>/);
  });

  it('prints the reason of a grade that can’t be given, and no dot', () => {
    const empty = emptyDossier().sheet;
    const bare = renderToStaticMarkup(<GradePlot families={empty.families} bars={bars} overall={empty.overall} />);
    expect(bare).not.toContain('class="dot');
    expect(bare).toContain('an overall grade would be mostly assumption.');
    expect(bare.match(/No mark of this trait yet\./g)).toHaveLength(12);
  });

  it('makes traits buttons only where pressing does something', () => {
    expect(markup).not.toContain('<button');
    expect(
      renderToStaticMarkup(<GradePlot families={sheet.families} bars={bars} onTrait={() => undefined} />),
    ).toContain('<button type="button">Press</button>');
  });

  it('has a twin table with every number', () => {
    const table = textOf(
      renderToStaticMarkup(<GradeTable families={sheet.families} bars={bars} overall={sheet.overall} />),
    );
    expect(table).toContain('Press 3.9 3.5–4.3 41 32.8 41 2 .81 .99 41 14 4 2');
    expect(table).toContain('3.3 , thin');
  });
});

describe('the charts of delta', () => {
  it('are named with what they show', () => {
    const carries = carriesOf(61);
    const over = carries.filter(({ delta }) => delta !== null && delta > 0).length;
    expect(renderToStaticMarkup(<DeltaHistogram carries={carries} />)).toContain(
      `aria-label="Gain against expected yards: ${over} of 61 carries over expected`,
    );
    expect(renderToStaticMarkup(<RunningDelta carries={carries} delta={known(deltaOf(0.4, 61))} />)).toContain(
      'after 61 carries, give or take 2.0"',
    );
  });

  it('say why they are empty', () => {
    expect(renderToStaticMarkup(<DeltaHistogram carries={[]} />)).toContain('down, to go, spot and gain are needed');
    expect(renderToStaticMarkup(<RunningDelta carries={[]} delta={unknown('Nothing charted.')} />)).toContain(
      'Nothing charted.',
    );
    expect(renderToStaticMarkup(<RunningDelta carries={carriesOf(1)} delta={known(deltaOf(1, 1))} />)).toContain(
      'needs two counted carries',
    );
  });

  it('have twin tables', () => {
    const carries = carriesOf(61);
    const counts = [...renderToStaticMarkup(<DeltaTable carries={carries} />).matchAll(/<td>(\d+)<\/td>/g)].map(
      ([, count]) => Number(count),
    );
    expect(counts.reduce((sum, count) => sum + count, 0)).toBe(61);
    const rows = textOf(renderToStaticMarkup(<RunningDeltaTable carries={carries} delta={known(deltaOf(0.4, 61))} />));
    expect(rows).toMatch(/60 [+−]?\d\.\d 2\.0 61 [+−]?\d\.\d 2\.0$/);
  });

  it('never draw a place that is not a number', () => {
    const drawn = [
      <DeltaHistogram key="1" carries={carriesOf(2)} />,
      <RunningDelta key="2" carries={carriesOf(2)} delta={known(deltaOf(0, 2))} />,
      <GradePlot key="3" families={sheet.families} bars={bars} />,
    ].map((chart) => renderToStaticMarkup(chart));
    for (const markup of drawn) expect(markup).not.toMatch(/NaN|Infinity|undefined/);
  });
});

describe('the tables', () => {
  it('show a success rate with its interval and the carries behind it', () => {
    expect(textOf(renderToStaticMarkup(<ResultsTable sheet={sheet} />))).toContain(
      'Success rate 61 carries .525 (.399–.650)',
    );
  });

  it('call few carries few, in words', () => {
    const split = sheet.splits[1];
    if (split === undefined) throw new Error('the fixture has four splits');
    expect(textOf(renderToStaticMarkup(<SplitTable split={split} />))).toContain(
      'Decided only 6 few .500 (.100–.900) −0.9 ± 6.3',
    );
  });

  it('say aloud when the log is a selection', () => {
    const partly = { ...sheet, completeness: known({ logged: 40, official: 66, share: 40 / 66, complete: false }) };
    expect(textOf(renderToStaticMarkup(<GamesTable sheet={partly} />))).toContain(
      'Only 40 of 66 official carries are logged, 60 %: what is here may be a selection.',
    );
  });
});
