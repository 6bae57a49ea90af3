/**
 * How the interval of a test with few possible p-values is made: it holds what the test does not reject,
 *
 * - `mid-p`: where outcomes as extreme as the observed one count half (Lancaster 1961, J. Am. Stat. Assoc. 56:223-234; Agresti
 *   and Gottard 2007, Comput. Stat. Data Anal. 51:6447-6458). Of the levels that the test can reach this takes the nearest to
 *   the one asked for, and of two equally near the higher;
 * - `p-value`: where they count in full, so that the level is at least the one asked for and zero is left out just where the
 *   p-value says so. With few units that is a good deal too long, or there is none.
 */
export type Inversion = 'mid-p' | 'p-value';
