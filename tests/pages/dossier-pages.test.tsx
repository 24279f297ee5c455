import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { dossierView, type DossierView } from '../../src/contract/views.ts';
import { DossierPages } from '../../src/pages/dossier-pages.tsx';
import { dossierOf, emptyDossier, evidenceOf, stillIds } from './dossier-fixture.ts';
import { textOf } from './text-of.ts';

const markupOf = (view: DossierView, still: (id: string) => string | null = (id) => `/still/${id}`): string =>
  renderToStaticMarkup(<DossierPages view={view} paper="A4" still={still} />);

describe('the dossier’s pages', () => {
  it('are drawn from views that the contract allows', () => {
    expect(() => dossierView.parse(dossierOf())).not.toThrow();
    expect(() => dossierView.parse(emptyDossier())).not.toThrow();
  });

  it('say who, by whom, when, and how much was seen', () => {
    const words = textOf(markupOf(dossierOf()));
    expect(words).toContain(
      'Running back · Harlan Ridge, junior · 5 ft 10, 207 lb · 2 games · 61 of 66 carries logged',
    );
    expect(words).toContain('R. Amari · 14 Nov 2026');
  });

  it('cite the carries of each sentence, for and against, as links to their rows', () => {
    const markup = markupOf(dossierOf());
    expect(textOf(markup)).toContain('form in front of him. carries 7 , 12 , 31 · against: 44');
    expect(markup).toContain('<a href="#carry-44">44</a>');
    expect(markup.match(/id="carry-44"/g)).toHaveLength(1);
  });

  it('say when a sentence cites no carry, and leave a number that no carry has without a link', () => {
    const view = dossierOf({
      verdict: [
        { text: 'Strong.', cites: [], against: [] },
        { text: 'Fast.', cites: [999], against: [] },
      ],
    });
    const markup = markupOf(view);
    expect(textOf(markup)).toContain('Strong. no carry cited Fast. carries 999');
    expect(markup).not.toContain('#carry-999');
  });

  it('print the reason wherever there is no answer', () => {
    const words = textOf(markupOf(emptyDossier()));
    for (const said of [
      'No verdict is written yet',
      'Role Not written yet.',
      'What would change this Not written yet.',
      'No counted carry has down, to go and gain.',
      'Less than .6 of the weight has marks',
      'No mark of this trait yet.',
      'No carry is chosen as evidence yet.',
      'No official line is in the study for this runner',
      'No split can be made yet',
      'marks of every evaluator together',
    ]) {
      expect(words).toContain(said);
    }
    expect(words).not.toMatch(/NaN|undefined|null|Infinity/);
  });

  it('take stills from where they are told, and print the rest when one is missing', () => {
    const view = dossierOf();
    const markup = markupOf(view, (id) => (id === stillIds[0] ? `/still/${id}` : null));
    expect(markup).toContain(
      `<img class="still" src="/still/${stillIds[0]}" alt="Still of carry 31, frame 1031: 2nd and 8, power right, gain of 9"/>`,
    );
    expect(markup.match(/<img/g)).toHaveLength(1);
    const words = textOf(markup);
    expect(words).toContain('No still: the film “coldwater-end-zone.mp4” is not where the study says; add it again.');
    expect(words).toContain('No still of frame 1018');
    expect(words).toContain('Keep to the film rights you hold');
  });

  it('draw chalk in the film’s own pixels, every kind of it', () => {
    const kinds = ['arrow', 'line', 'lane', 'ring', 'freehand', 'text', 'distance'] as const;
    const view = dossierOf({
      evidence: [
        {
          ...evidenceOf(31, stillIds[0], 'Here', '', false),
          picture: {
            width: 1280,
            height: 720,
            chalk: kinds.map((kind) => ({
              kind,
              points: [
                [100, 50],
                [160, 90],
              ],
              text: `${kind} words`,
            })),
          },
        },
      ],
    });
    const markup = markupOf(view);
    expect(markup).toContain('viewBox="0 0 1280 720"');
    // A ring's first point is its centre, its second lies on it.
    expect(markup).toContain(`<circle cx="100" cy="50" r="${Math.hypot(60, 40)}">`);
    for (const kind of kinds) expect(textOf(markup)).toContain(`${kind} words`);
    expect(markup).not.toContain('NaN');
  });

  it('say what is assumed once each, and what it was made from', () => {
    const words = textOf(markupOf(dossierOf()));
    expect(words.match(/The spread between games is the documented default/g)).toHaveLength(1);
    expect(words).toContain(
      'Study autumn-class; rubric Default rubric, version 3; evaluator R. Amari; 14 Nov 2026; Creasebook 0.1.0.',
    );
  });

  it('have no style attribute, which the content policy would refuse', () => {
    expect(markupOf(dossierOf())).not.toMatch(/\sstyle=/);
    expect(markupOf(emptyDossier())).not.toMatch(/\sstyle=/);
  });

  it('give the same markup for the same view', () => {
    expect(markupOf(dossierOf())).toBe(markupOf(dossierOf()));
  });
});
