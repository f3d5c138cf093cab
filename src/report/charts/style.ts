/**
 * How every chart looks: dark ink and one accent on light paper. Text and marks keep the contrast that WCAG 2.2 asks for
 * at level AA against the paper (4.5 for text, 3 for marks); the tests check it.
 */
export const PAPER = '#fdfbf6';
export const INK = '#22211f';
/** Text and marks that stand back. */
export const QUIET = '#66615a';
/** What to look at. */
export const ACCENT = '#a63d1f';
/** The accent as a fill, pale enough for ink across it. */
export const BAR = '#bc6d55';
/** Grid and track lines: they carry nothing that is not also written. */
export const LINE = '#d8d2c5';
/** The darkest cell of a heat map: light enough for ink on top. */
export const TINT = '#e09a7d';

export const FONT = 'system-ui, sans-serif';
export const TEXT_SIZE = 12;
export const SMALL_SIZE = 11;
export const HEADING_SIZE = 16;

/** Of most charts, in px. Charts with many columns grow wider. */
export const WIDTH = 720;
