import { afterEach, describe, expect, test } from 'vitest';
import { adoptDocumentStyles, DARK, documentStyles, LIGHT } from '../../src/ui/tokens.ts';
import { clearPage } from './mount.ts';

const value = (name: string) => getComputedStyle(document.documentElement).getPropertyValue(name).trim();

afterEach(clearPage);

describe('the document styles', () => {
  test('are adopted once, however often they are asked for', () => {
    adoptDocumentStyles(document);
    adoptDocumentStyles(document);
    const sheet = documentStyles.styleSheet;
    expect(sheet).toBeDefined();
    expect(document.adoptedStyleSheets.filter((one) => one === sheet)).toHaveLength(1);
  });

  test('obey data-theme whatever the system prefers', () => {
    adoptDocumentStyles(document);
    document.documentElement.dataset['theme'] = 'dark';
    expect(value('--m-ground')).toBe(DARK.ground);
    document.documentElement.dataset['theme'] = 'light';
    expect(value('--m-ground')).toBe(LIGHT.ground);
  });

  test('give touch targets of 48 px or more', () => {
    adoptDocumentStyles(document);
    const probe = document.createElement('div');
    document.body.append(probe);
    for (const token of ['--m-target', '--m-key']) {
      probe.style.setProperty('height', `var(${token})`);
      expect(probe.getBoundingClientRect().height, token).toBeGreaterThanOrEqual(48);
    }
  });
});
