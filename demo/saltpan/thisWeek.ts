import type { Stage } from "../stage";
import type { Course } from "../work/courses";
import type { Garage } from "../work/garage";
import { Week } from "./week";

/** Everything that is going on around today. */
export function thisWeek(stage: Stage, garage: Garage): Course[] {
  const week = new Week(stage, garage);
  return [
    week.underway({ bike: 2, package: "OPEN" }),
    week.found({ bike: 1, package: "RESET" }, "Both vent hoses cracked through at the spigot."),
    week.toRide({ bike: 3, package: "OPEN", leave: ["lift"] }),
    week.stopped({ bike: 5, package: "OPEN" }),
    week.ready({ bike: 6, package: "RESET" }),
    week.fetched({ bike: 43, package: "TWIN" }, -3, "08:00"),
    week.fetched({ bike: 44, package: "RESET" }, -4, "12:30", "cash"),
    week.eased({ bike: 40, package: "NEEDLE" }, -5, "08:00"),
    week.booked({ bike: 4, package: "RESET" }, -5, [0, "tuner", 0, "12:30", 130], "12:15"),
    week.waiting({ bike: 7, package: "TWIN", take: ["balance-full", "pilots"] }, -4),
    week.waiting({ bike: 8, package: "RESET", take: ["vents"] }, -3),
    week.dropped({ bike: 9, package: "OPEN", take: ["air-filter"] }),
    week.booked({ bike: 10, package: "TWIN" }, -5, [1, "owner", 1, "08:30", 180], "08:15"),
    week.booked({ bike: 13, package: "OPEN", take: ["weld"] }, -4, [1, "owner", 2, "09:00", 270], "08:45"),
    week.booked({ bike: 11, package: "RESET" }, -3, [0, "tuner", 3, "10:00", 110], "09:45"),
    week.booked({ bike: 12, package: "RESET" }, -4, [1, "owner", 4, "13:00", 110], "12:45"),
    week.draft({ bike: 0, package: "OPEN" }, -1, "16:05"),
    week.draft({ bike: 30, package: "OPEN", take: ["silencer"] }, -2, "11:50"),
    week.open({ bike: 29, package: "TWIN" }, -8, "14:20"),
    week.open({ bike: 25, package: "OPEN" }, -4, "09:50"),
    week.open({ bike: 34, package: "RESET" }, -2, "15:10"),
    week.overTheCounter(-6, "10:20", [["SCR-J4x12", 8]], "cash", 1000),
    week.overTheCounter(
      -3,
      "15:45",
      [
        ["OR-BOWL-40", 2],
        ["SCR-J4x16", 4],
      ],
      "card",
    ),
    week.overTheCounter(
      -1,
      "09:35",
      [
        ["SHIM-N", 4],
        ["CLIP-N", 2],
      ],
      "cash",
      2000,
    ),
    week.waiting({ bike: 22, package: "OPEN", take: ["silencer", "weld"] }, -5),
    week.closed(-4),
    week.closed(-1, -100, "Nobody knows; the change for the clips may have been given twice."),
  ];
}
