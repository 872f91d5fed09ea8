import type { ShopReader } from "@/lib/db/shop";
import { howToMake, type SizeInDrawer } from "@/lib/domain/sheets/howToMake";
import type { SettingToMake } from "@/lib/domain/sheets/toMake";
import { SHIM_FAMILY } from "@/lib/domain/stock/shims";
import type { TargetSheet } from "@/lib/domain/tuning/targetTypes";

/** Needle shims of the drawer with where they lie. */
export async function shimsInDrawer(reads: Pick<ShopReader, "part">): Promise<readonly SizeInDrawer[]> {
  const rows = await reads.part.findMany({
    where: { family: SHIM_FAMILY, active: true, sizeMilli: { gt: 0 } },
    select: { sizeMilli: true, onHandMilli: true, reservedMilli: true, bin: true },
    orderBy: { sizeMilli: "asc" },
    take: 40,
  });
  return rows.map((row) => ({
    sizeMm: (row.sizeMilli ?? 0) / 1000,
    free: Math.max(0, Math.floor((row.onHandMilli - row.reservedMilli) / 1000)),
    bin: row.bin,
  }));
}

type Carburettor = TargetSheet["carburettors"][number];
type Setting = Carburettor["settings"][number];

/** What of a kept answer is read here. */
interface Told {
  readonly carburettors?: readonly (Pick<Partial<Carburettor>, "needlePosition"> & {
    readonly settings: readonly (Pick<Setting, "key" | "value"> & Partial<Pick<Setting, "because">>)[];
  })[];
}

/** A setting to make with from where its value comes and how it is made. */
export interface ToldSetting extends SettingToMake {
  readonly why: readonly string[];
  readonly how: readonly string[];
}

/** Puts reasons and the way to make it beside each setting of a step. */
export function toldSettings(
  settings: readonly SettingToMake[],
  target: { readonly note: string; readonly calculation?: unknown } | null,
  shims: readonly SizeInDrawer[],
): readonly ToldSetting[] {
  // Kept with the job as it was answered then, which an older release may have done with less in it.
  const answered = (target?.calculation ?? null) as Told | null;
  return settings.map((one) => {
    const place = answered?.carburettors?.[one.carburettor - 1];
    const said = place?.settings.find((s) => s.key === one.def.key);
    const because = said && said.value === one.to ? (said.because ?? []).slice(0, 2) : [];
    const question = place?.needlePosition?.question;
    const asked = one.to === null && one.def.key.startsWith("needleShim") && question ? [question] : [];
    return {
      ...one,
      why:
        because.length > 0
          ? because.map((r) => [r.fact, r.effect].filter(Boolean).join(": "))
          : noteOf(target, one.to),
      how: one.to === null ? asked : howToMake(one.def.key, one.from, one.to, shims),
    };
  });
}

const noteOf = (target: { readonly note: string } | null, to: number | null): readonly string[] =>
  target && to !== null && target.note !== "" ? [target.note] : [];
