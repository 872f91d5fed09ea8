import { shopFile } from "@/lib/gate/route";
import { idOf } from "../../../paper";
import { sentPicture } from "../../sent";

export const GET = shopFile("photo.read", (shop, params, request) =>
  sentPicture(shop, idOf(params), "small", request),
);
