import { html } from 'lit';
import { page, userEvent } from 'vitest/browser';
import { afterAll, afterEach, describe, expect, test } from 'vitest';
import '../../src/ui/conclusion.ts';
import { CONCLUSION, SUGGESTION } from './job-samples.ts';
import { axeFindings, clearPage, every, heard, mount, one, sideways, smallTargets, textOf } from './mount.ts';

afterEach(clearPage);
afterAll(() => page.viewport(414, 896)); // what the other files were started with

type Conclusion = HTMLElementTagNameMap['m-conclusion'];
const open = () =>
  mount<Conclusion>(
    html`<m-conclusion
      .suggestion=${SUGGESTION}
      .caveats=${['Marginal says nothing of full load.']}
    ></m-conclusion>`,
  );
const concluded = () =>
  mount<Conclusion>(
    html`<m-conclusion state="concluded" .draft=${CONCLUSION} technician="A. Reader"></m-conclusion>`,
  );
const signed = () =>
  mount<Conclusion>(
    html`<m-conclusion
      state="signed"
      .draft=${CONCLUSION}
      .signature=${{ by: 'A. Reader', time: '2026-11-25 12:04', revision: 2 }}
    ></m-conclusion>`,
  );

describe('an open job', () => {
  test('shows what the findings suggest, to be read only, and takes none of it', async () => {
    const element = await open();
    const suggestion = one(element, '.suggestion');
    expect(textOf(suggestion)).toContain('Repair now Likeliest cause: Worn pumping elements');
    expect(textOf(suggestion)).toContain('Watch for: loss of power on hills');
    expect(textOf(suggestion)).toContain('Marginal says nothing of full load.');
    expect(suggestion.querySelectorAll('input, textarea, button')).toHaveLength(0);
    expect(every<HTMLInputElement>(element, 'input').some(({ checked }) => checked)).toBe(false);
    expect(every<HTMLTextAreaElement>(element, 'textarea').map(({ value }) => value)).toEqual(['', '']);
  });

  test('says what each decision means', async () => {
    const choices = every(await open(), '.choice').map(textOf);
    expect(choices).toHaveLength(3);
    expect(choices[1]).toContain('Run on and watch It works today');
  });

  test('is not concluded before decision and words are there, and the fields say so', async () => {
    const element = await open();
    const said = heard(element, 'concluded');
    one(element, '.primary').click();
    await element.updateComplete;
    expect(said).toEqual([]);
    expect(every(element, '.mistake').map(textOf)).toEqual([
      'Choose one of the three.',
      'Say in your own words what was found; one sentence is enough.',
    ]);
  });

  test('running on asks what to watch for', async () => {
    const element = await open();
    const said = heard(element, 'concluded');
    every(element, '.choice')[1]!.click();
    await element.updateComplete;
    await userEvent.fill(one(element, '#words'), 'Marginal.');
    one(element, '.primary').click();
    await element.updateComplete;
    await element.updateComplete;
    expect(said).toEqual([]);
    expect(element.shadowRoot!.activeElement!.id).toBe('watchFor');
    await userEvent.keyboard('Long cranking');
    one(element, '.primary').click();
    await element.updateComplete;
    expect(said).toEqual([
      { decision: 'run on and watch', words: 'Marginal.', cause: '', watchFor: 'Long cranking' },
    ]);
  });

  test('is concluded by keyboard, and every change is said before', async () => {
    const element = await open();
    const [said, typed] = [heard(element, 'concluded'), heard(element, 'conclusion-typed')];
    one(element, 'input').focus();
    await userEvent.keyboard(' {Tab}Worn pump{Tab}Found.{Tab}{Enter}');
    await element.updateComplete;
    expect(said).toEqual([{ decision: 'repair now', words: 'Found.', cause: 'Worn pump', watchFor: '' }]);
    expect(typed).toHaveLength(1 + 'Worn pump'.length + 'Found.'.length);
  });
});

describe('a concluded job', () => {
  test('is signed with a name, the technician proposed', async () => {
    const element = await concluded();
    const said = heard(element, 'signed');
    expect(one<HTMLInputElement>(element, '#by').value).toBe('A. Reader');
    await userEvent.fill(one(element, '#by'), ' ');
    one(element, '.sign button').click();
    await element.updateComplete;
    expect([said, textOf(one(element, '.mistake'))]).toEqual([[], 'Type your name to sign.']);
    await userEvent.keyboard('B. Writer');
    await userEvent.tab();
    await userEvent.keyboard('{Enter}');
    expect(said).toEqual([{ by: 'B. Writer' }]);
  });
});

test('a name and Enter sign', async () => {
  const element = await concluded();
  const said = heard(element, 'signed');
  one(element, '#by').focus();
  await userEvent.keyboard('{Enter}');
  expect(said).toEqual([{ by: 'A. Reader' }]);
});

test('what was measured after the conclusion is told beside it', async () => {
  const element = await concluded();
  expect(every(element, '.caveat')).toEqual([]);
  element.outdated = true;
  await element.updateComplete;
  expect(textOf(one(element, '.caveat'))).toContain('Reopen it if it no longer holds.');
});

describe('a signed job', () => {
  test('is read only and names who signed, when and which revision', async () => {
    const element = await signed();
    expect(every(element, 'input, textarea')).toEqual([]);
    expect(textOf(one(element, '.signature'))).toBe('Signed by A. Reader , 2026-11-25 12:04 , revision 2 .');
    expect(textOf(one(element, '.state'))).toBe('signed');
  });

  test('is opened again only with a reason', async () => {
    const element = await signed();
    const said = heard(element, 'reopened');
    one(element, '.reopen').click();
    await element.updateComplete;
    await userEvent.keyboard('{Enter}');
    expect(said).toEqual([]);
    await userEvent.keyboard('Came back after a week.{Enter}');
    expect(said).toEqual([{ reason: 'Came back after a week.' }]);
  });
});

test('a job that was opened again shows what it ended in before, and why it was opened', async () => {
  const element = await open();
  element.earlier = [
    {
      revision: 1,
      decision: 'look elsewhere',
      cause: '',
      words: 'Nothing found.',
      closed: 'Signed by A. Reader, 24 Nov 2026, 12:04',
      reopened: 'Opened again 25 Nov 2026, 08:00: it came back',
    },
  ];
  await element.updateComplete;
  expect(textOf(one(element, '[aria-labelledby=before]'))).toMatch(
    /^Concluded before Revision 1 Look elsewhere Nothing found\. Signed by A\. Reader, .*: it came back$/,
  );
  expect(await axeFindings(element)).toEqual([]);
});

describe.each([1280, 390])('at %d wide', (width) => {
  test.each([
    ['open', open],
    ['concluded', concluded],
    ['signed', signed],
  ])('%s scrolls nothing sideways, is for gloves, axe finds nothing', async (_, make) => {
    // prettier-ignore
    await page.viewport(width, 844);
    const element = await make();
    if (width === 390) expect(await sideways(element)).toEqual([]);
    expect(smallTargets(element, 'button, label.choice, textarea, #by')).toEqual([]);
    expect(await axeFindings(element)).toEqual([]);
  });
});
