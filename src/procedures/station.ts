import { z } from 'zod';

/** The stations of the fuel path, from tank to injectors. */
export const STATION_IDS = [
  'tank',
  'suction line',
  'suction filter',
  'supply pump',
  'pressure filter',
  'metering valve',
  'high-pressure pump',
  'rail',
  'relief valve',
  'injectors',
] as const;
export const StationId = z.enum(STATION_IDS);
export type StationId = z.infer<typeof StationId>;

/** What a station is called on the screen, and which side of the path it lies on. */
export const STATIONS: Readonly<
  Record<StationId, { readonly name: string; readonly shortName: string; readonly side: 'low' | 'high' }>
> = {
  tank: { name: 'Tank and fuel', shortName: 'Tank', side: 'low' },
  'suction line': { name: 'Suction line', shortName: 'Suction', side: 'low' },
  'suction filter': { name: 'Filter and water separator', shortName: 'Separator', side: 'low' },
  'supply pump': { name: 'Supply pump', shortName: 'Supply', side: 'low' },
  'pressure filter': { name: 'Pressure filter', shortName: 'Filter', side: 'low' },
  'metering valve': { name: 'Metering valve and housing', shortName: 'Metering', side: 'high' },
  'high-pressure pump': { name: 'Pumping elements and outlet check valves', shortName: 'Pump', side: 'high' },
  rail: { name: 'Rail and pressure sensor', shortName: 'Rail', side: 'high' },
  'relief valve': { name: 'Rail relief valve', shortName: 'Relief', side: 'high' },
  injectors: { name: 'Injectors', shortName: 'Injectors', side: 'high' },
};
