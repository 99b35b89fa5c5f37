/** The one public entry of the domain. It depends on nothing: clock, chance and solver are arguments. */
export * from './bin/outcome.ts';
export * from './bin/scenario.ts';
export * from './outlook.ts';
export * from './plan/types.ts';
export * from './signals/types.ts';
export * from './materials/catalogue.gen.ts';
export * from './materials/material.ts';
export * from './materials/material-row.ts';
export * from './units/fraction.ts';
export * from './units/mass.ts';
export * from './units/temperature.ts';
export * from './units/time.ts';
export * from './units/volume.ts';
export * from './units/water.ts';
export * from './materials/blend.ts';
export * from './materials/measure.ts';
