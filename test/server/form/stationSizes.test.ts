/** Width and height left empty are taken from the stations, and the top of the page names the questions at fields. */
import { describe, expect, test } from 'vitest';
import { applyForm, type Draft } from '../../../server/form/apply.ts';
import { readDraft } from '../../../server/form/draftRead.ts';
import { showForm } from '../../../server/form/show.ts';
import { questionsOf, wantedOf } from '../../../server/form/wanted.ts';

const station = (along: number, half: number, port = half) => ({
  along,
  at: [
    { up: 0, from: -100, to: 100 },
    { up: 240, from: -port, to: half },
  ],
});

function draftWith(space: Record<string, unknown>): Draft {
  return {
    format: 'kentledge-job/1',
    name: 'Stations',
    pile: [{ lot: 'A', section: { shape: 'round', diameter: 20 }, length: 3000 }],
    voids: [{ void: 'V1', length: 1100, ...space }],
  };
}

const STATIONS = [station(0, 150), station(500, 210, 200), station(1100, 160)];
const spaceOf = (draft: Draft) => (draft.voids as Record<string, unknown>[])[0]!;
const page = (draft: Draft) => {
  const form = showForm(draft, readDraft(draft));
  const field = (path: string) => form.voids[0]!.fields.find(({ name }) => name === `voids[0].${path}`)!;
  return { form, width: field('width'), height: field('height'), questions: questionsOf(form, draft) };
};

describe('of a void measured by stations', () => {
  test('width and height left empty are the widest and the highest reading, told as such, and nobody asks', () => {
    const draft = applyForm(draftWith({ stations: STATIONS }), new Map());
    expect(spaceOf(draft)).toMatchObject({ width: 410, height: 240 });
    const { form, width, height, questions } = page(draft);
    expect(wantedOf(form)).toEqual([]);
    expect([width.echo, height.echo]).toEqual(['as the stations read', 'as the stations read']);
    expect([width.doubt, height.doubt, questions.count]).toEqual(['', '', 0]);
  });

  test('they follow the readings until others are typed, which stay', () => {
    const draft = applyForm(draftWith({ stations: STATIONS }), new Map());
    const wider = new Map([['voids[0].stations[2].at', '0: -100 to 100\n260: -230 to 230']]);
    expect(spaceOf(applyForm(draft, wider))).toMatchObject({ width: 460, height: 260 });
    const own = applyForm(draft, new Map([['voids[0].width', '500']]));
    expect(spaceOf(applyForm(own, wider))).toMatchObject({ width: 500, height: 260 });
    expect(page(own).width.echo).toBe('');
  });

  test('nothing is taken from one station, from one that can not be read, or where a size is stated', () => {
    for (const stations of [STATIONS.slice(0, 1), [...STATIONS, { along: 'x' }]])
      expect(spaceOf(applyForm(draftWith({ stations }), new Map())).width).toBeUndefined();
    const stated = draftWith({ stations: STATIONS, width: 300, height: 250 });
    expect(applyForm(stated, new Map())).toEqual(stated);
  });
});

describe('questions at fields', () => {
  test('are counted and named at the top by lot and void, each with a link to its field', () => {
    const draft = draftWith({ stations: STATIONS, width: 300, height: 230, limit: 30 });
    const { form, questions } = page(draft);
    expect(wantedOf(form)).toEqual([]);
    expect(questions.count).toBe(3);
    expect(questions.places).toEqual([
      {
        where: 'Void V1',
        fields: [
          { to: '#voids-0-width', label: 'Width' },
          { to: '#voids-0-limit', label: 'Lift limit here' },
          { to: '#voids-0-stations-0-at', label: 'Readings' },
        ],
      },
    ]);
    for (const { to } of questions.places[0]!.fields) {
      const shown = [
        ...form.voids[0]!.fields,
        ...form.voids[0]!.rows.flatMap(({ rows }) => rows.flatMap((row) => row.fields)),
      ];
      expect(shown.find(({ id }) => `#${id}` === to)?.doubt).not.toBe('');
    }
  });

  test('stand on the page of a job that can be planned, and of one that can not', async () => {
    const { openWorld } = await import('../world.ts');
    const world = await openWorld();
    const asked = async (space: Record<string, unknown>) =>
      world.text(await world.bring(JSON.stringify(draftWith({ stations: STATIONS, height: 240, ...space }))));
    const one = await asked({ width: 300 });
    const none = await asked({ width: 500 });
    await world.close();
    expect(one).toContain('It can be planned. 1 question stands at:');
    expect(one).toContain('<a href="#voids-0-width">Width</a>');
    expect(one).toContain('ready to plan, 1 question<');
    expect(one).not.toContain('Nothing is missing');
    expect(none).toContain('Nothing is missing: it can be planned.');
    expect(none).not.toContain('question');
  });
});
