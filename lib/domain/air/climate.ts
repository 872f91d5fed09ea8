import { within } from "../refusal";
import { CLIMATE_NORMALS, type ClimateNormal } from "./climateNormals";
import { LAPSE_K_PER_M } from "./isa";

/** Where weather is told for, in degrees, south and west negative. Without a longitude the latitude alone tells it. */
export interface Spot {
  readonly latitude: number;
  readonly longitude?: number | null | undefined;
}

/** Afternoon temperature at sea level over the year: mean, and what July is above it (below in the south), C. */
export interface Climate {
  readonly meanC: number;
  readonly julyC: number;
}

/** Annual mean and half swing of afternoon temperature (C) at sea level by latitude. Source: judgement, from memory. */
const BY_LATITUDE = [
  { latitude: 0, meanC: 30, swingC: 1 },
  { latitude: 15, meanC: 30, swingC: 3 },
  { latitude: 30, meanC: 25, swingC: 7 },
  { latitude: 45, meanC: 16, swingC: 10 },
  { latitude: 60, meanC: 9, swingC: 12 },
  { latitude: 75, meanC: -4, swingC: 14 },
] as const;

/** A town's climate speaks for this far around it (one sigma of a bell), km. Source: judgement. */
const REACH_KM = 600;
/** What the latitude alone weighs beside towns: it decides from about three times that distance on. Source: judgement. */
const LATITUDE_WEIGHS = 0.02;
const EARTH_KM = 6371;

/**
 * Climate at a spot, latitude -75 to 75: that of its latitude, and where the longitude is known, corrected by how much the towns
 * around it differ from theirs, the nearer the more. Throws OutOfRange. Source: judgement over climateNormals.ts.
 */
export function climateAt(spot: Spot, towns: readonly ClimateNormal[] = CLIMATE_NORMALS): Climate {
  const usual = ofLatitude(within("latitude", spot.latitude, -75, 75, "degrees"));
  if (spot.longitude === undefined || spot.longitude === null) return usual;
  within("longitude", spot.longitude, -180, 180, "degrees");
  let [weights, mean, july] = [LATITUDE_WEIGHS, 0, 0];
  for (const town of towns) {
    const weight = Math.exp(-0.5 * (distanceKm(spot, town) / REACH_KM) ** 2);
    const there = ofLatitude(town.latitude);
    const own = atSeaLevel(town);
    weights += weight;
    mean += weight * (own.meanC - there.meanC);
    july += weight * (own.julyC - there.julyC);
  }
  return { meanC: usual.meanC + mean / weights, julyC: usual.julyC + july / weights };
}

/** A town's climate brought down to the sea. */
export function atSeaLevel({ januaryC, julyC, altitudeM }: ClimateNormal): Climate {
  return { meanC: (januaryC + julyC) / 2 + LAPSE_K_PER_M * altitudeM, julyC: (julyC - januaryC) / 2 };
}

/** The nearest town whose climate is kept, and how far it is. */
export function nearestTown(spot: Spot): { readonly name: string; readonly km: number } {
  return CLIMATE_NORMALS.reduce(
    (best, town) => {
      const km = distanceKm(spot, town);
      return km < best.km ? { name: town.name, km } : best;
    },
    { name: "", km: Number.POSITIVE_INFINITY },
  );
}

function ofLatitude(latitude: number): Climate {
  const size = Math.abs(latitude);
  const above = BY_LATITUDE.findIndex((row) => row.latitude >= size);
  const high = BY_LATITUDE[Math.max(1, above)] ?? BY_LATITUDE[5];
  const low = BY_LATITUDE[Math.max(1, above) - 1] ?? BY_LATITUDE[0];
  const share = (size - low.latitude) / (high.latitude - low.latitude);
  const swing = low.swingC + share * (high.swingC - low.swingC);
  return {
    meanC: low.meanC + share * (high.meanC - low.meanC),
    julyC: latitude >= 0 ? swing : -swing,
  };
}

/** Great-circle distance. Source: haversine formula. */
function distanceKm(a: Spot, b: Spot): number {
  const rad = (degrees: number) => (degrees * Math.PI) / 180;
  const [latA, latB] = [rad(a.latitude), rad(b.latitude)];
  const half = (x: number) => Math.sin(x / 2) ** 2;
  const turn = rad((b.longitude ?? 0) - (a.longitude ?? 0));
  const chord = half(latB - latA) + Math.cos(latA) * Math.cos(latB) * half(turn);
  return 2 * EARTH_KM * Math.asin(Math.sqrt(Math.min(1, chord)));
}
