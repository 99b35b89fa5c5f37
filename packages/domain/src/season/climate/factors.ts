import { type Parameter, parameter } from '../../bin/parameter.ts';
import type { ThreePoint } from './three-point.ts';

/** What a tonne of scraps gives off, [kg CO2e per 1000 kg as it is]. */
export interface ClimateFactors {
  /** In a landfill. */
  readonly landfill: ThreePoint;
  /** In the bin itself: methane and nitrous oxide. */
  readonly process: ThreePoint;
}

/** A set that is offered; nothing is counted by it before a coordinator looked it up and confirmed it. */
export interface ClimateFactorSet extends ClimateFactors {
  readonly id: string;
  readonly name: string;
  readonly edition: string;
  readonly region: string;
  /** Over which time the gases are brought to carbon dioxide, and by which report. */
  readonly basis: string;
  /** Where the figures were read; every one of them in another text that quotes the table. */
  readonly source: string;
}

const KG_PER_SHORT_TON = 907.18474;
const KG_PER_TONNE = 1000;

/** Gases of composting, IPCC 2006 volume 5 table 4.1, per kilogram as it is, and what they are worth in carbon dioxide. */
export const COMPOSTING_GASES = {
  methaneLow: parameter(0.03, 'g/kg', 'published', 'ipcc-2006-composting'),
  methane: parameter(4, 'g/kg', 'from memory', 'ipcc-2006-composting'),
  methaneHigh: parameter(8, 'g/kg', 'published', 'ipcc-2006-composting'),
  nitrousLow: parameter(0.06, 'g/kg', 'published', 'ipcc-2006-composting'),
  /** The table prints 0.3; 0.6 per dry kilogram at the 60 % of water that it assumes are 0.24. */
  nitrous: parameter(0.24, 'g/kg', 'derived', 'ipcc-2006-composting'),
  nitrousHigh: parameter(0.6, 'g/kg', 'published', 'ipcc-2006-composting'),
  methaneWorth: parameter(28, 'kg CO2e/kg', 'from memory', 'ipcc-2006-composting'),
  nitrousWorth: parameter(265, 'kg CO2e/kg', 'from memory', 'ipcc-2006-composting'),
} as const;
const G = COMPOSTING_GASES;

/**
 * What composting gives off.
 *
 * e = 28 CH4 + 265 N2O
 *
 * @shape scalar, scalar -> scalar
 * @returns [kg CO2e per tonne], which is [g CO2e per kg]
 * @source ipcc-2006-composting
 */
export const composting = (methane: Parameter, nitrous: Parameter): number =>
  methane.value * G.methaneWorth.value + nitrous.value * G.nitrousWorth.value;

const ipcc: ThreePoint = {
  low: composting(G.methaneLow, G.nitrousLow),
  mid: composting(G.methane, G.nitrous),
  high: composting(G.methaneHigh, G.nitrousHigh),
};

/** Published per short ton, in tonnes of carbon dioxide. */
export const perShortTon = (tonnes: number): number => (tonnes * KG_PER_TONNE * KG_PER_TONNE) / KG_PER_SHORT_TON;

const AR5 = '100 years, IPCC AR5';
const epa = (edition: string, compostedTonnes: number): ClimateFactorSet => ({
  id: `us-epa-${edition}`,
  name: 'US EPA Emission Factors Hub, Table 9, food waste',
  edition,
  region: 'United States',
  basis: AR5,
  source: `US EPA Emission Factors Hub ${edition}, Table 9 (low: fruit and vegetables only); range of composting: IPCC 2006, volume 5, Table 4.1`,
  landfill: { low: perShortTon(0.28), mid: perShortTon(0.68), high: perShortTon(0.68) },
  process: { ...ipcc, mid: perShortTon(compostedTonnes) },
});
const uk = (edition: string, kgPerTonne: number): ClimateFactorSet => ({
  id: `uk-${edition}`,
  name: 'UK Government conversion factors, waste disposal, food and drink',
  edition,
  region: 'United Kingdom',
  basis: AR5,
  source: `UK Government GHG conversion factors ${edition}, waste disposal (gives no range; its composting row is transport only); composting: IPCC 2006, volume 5, Table 4.1`,
  landfill: { low: kgPerTonne, mid: kgPerTonne, high: kgPerTonne },
  process: ipcc,
});

/**
 * Sets that are offered. Each was read in another text that quotes the table and not in the table itself.
 *
 * @source emission-factors
 */
export const CLIMATE_FACTOR_SETS: readonly ClimateFactorSet[] = [
  epa('2026', 0.11),
  epa('2020', 0.07),
  uk('2026', 700.33263),
  uk('2024', 700.20961),
];
