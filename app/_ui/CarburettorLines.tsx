/** The lines of a constant-vacuum carburettor in section, 420 by 392, without words or numbers. */
export function CarburettorLines() {
  return (
    <g fill="none" strokeLinejoin="round" strokeLinecap="round">
      <Airbox />
      {/* Body round the bore: above, broken by the slide's guide, and below. */}
      <path
        d="M62 142H172V150H62ZM248 142H398V150H248Z"
        className="fill-brass-wash stroke-ink"
        strokeWidth="1.5"
      />
      <path d="M172 108V144M248 108V144" className="stroke-ink" strokeWidth="1.5" />
      <path
        d="M62 208H200V214H62ZM220 208H398V216H220Z"
        className="fill-brass-wash stroke-ink"
        strokeWidth="1.5"
      />
      <Slide />
      <Butterfly />
      <Bowl />
      <path d="M72 179h26m-8-5 8 5-8 5M366 179h26m-8-5 8 5-8 5" className="stroke-soft" strokeWidth="1.5" />
    </g>
  );
}

function Airbox() {
  return (
    <>
      <path d="M18 98H8V262H56V214M56 144V98H42" className="stroke-ink" strokeWidth="2" />
      <path d="M18 98v14M42 98v14" className="stroke-ink" strokeWidth="2" />
      <path d="M20 128v118M28 128v118M36 128v118" strokeDasharray="3 4" className="stroke-soft" />
    </>
  );
}

/** Cap, diaphragm, spring, slide, needle and lift holes. */
function Slide() {
  const coils = Array.from({ length: 9 }, (_, i) => `L${i % 2 === 0 ? 226 : 194} ${32 + i * 11}`).join("");
  return (
    <>
      <path
        d="M112 96V90H132C136 42 160 16 210 16S284 42 288 90H308V96"
        className="fill-sheet stroke-ink"
        strokeWidth="2"
      />
      <path d="M112 104V98H308V104L248 108H172Z" className="fill-brass-wash stroke-ink" strokeWidth="1.5" />
      <path
        d="M116 97C136 97 142 78 160 78H182M304 97C284 97 278 78 260 78H238"
        className="stroke-ink"
        strokeWidth="2"
      />
      <path d="M182 74V186H238V74" className="fill-sheet stroke-ink" strokeWidth="2" />
      <path d="M190 74V150H230V74" className="stroke-ink" />
      <path d={`M194 24${coils}L210 138`} className="stroke-ink" strokeWidth="1.5" />
      <circle cx="197" cy="184" r="3" className="fill-paper stroke-ink" />
      <circle cx="223" cy="184" r="3" className="fill-paper stroke-ink" />
      <path d="M207 146H213V206L211.4 262H208.6L207 206Z" className="fill-ink stroke-ink" />
      <path d="M203 149H217M203 153H217M203 157H217" className="stroke-ink" />
    </>
  );
}

function Butterfly() {
  return (
    <>
      <path d="M302 204L330 154" className="stroke-ink" strokeWidth="4" />
      <circle cx="316" cy="179" r="5" className="fill-paper stroke-ink" strokeWidth="1.5" />
      {/* Mixture screw across the pilot outlet, behind the butterfly. */}
      <path d="M333 216v-8M338 216v-8" className="stroke-ink" />
      <path d="M336 220L342 232 358 252" className="stroke-ink" strokeWidth="4" />
      <path d="M352 256L363 248" className="stroke-ink" strokeWidth="2" />
    </>
  );
}

/** Float bowl with fuel, float, needle jet over main jet, pilot jet and its passage. */
function Bowl() {
  return (
    <>
      <path d="M112 234H308V334L292 344H128L112 334Z" className="fill-sheet stroke-ink" strokeWidth="2" />
      <path d="M114 270H306V333L291 342H129L114 333Z" className="fill-brass-wash stroke-none" />
      <path d="M114 270H306" strokeDasharray="5 3" className="stroke-brass" />
      <path d="M200 208V306H220V208" className="fill-paper stroke-ink" strokeWidth="1.5" />
      <path d="M207 206H213V214L211.6 262H208.4L207 214Z" className="fill-ink" />
      <path d="M202 306H218V322H202Z" className="fill-brass-fill stroke-ink" />
      <path d="M210 306V322" className="stroke-ink" strokeWidth="2.5" />
      <path d="M158 234V296H168V234" className="fill-paper stroke-ink" strokeWidth="1.5" />
      <path d="M158 296H168V310H158Z" className="fill-brass-fill stroke-ink" />
      <path d="M163 296V310" className="stroke-ink" />
      <path d="M163 246V226H330L334 217" strokeDasharray="4 3" className="stroke-ink" />
      <path d="M240 260H296V286H240Z" className="fill-paper stroke-ink" strokeWidth="1.5" />
      <path d="M240 266L228 250V240" className="stroke-ink" strokeWidth="1.5" />
    </>
  );
}
