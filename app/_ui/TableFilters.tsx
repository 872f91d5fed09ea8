"use client";
import Form from "next/form";
import { useId } from "react";
import { buttonLook } from "./buttonLook";
import { CONTROL } from "./FieldFrame";
import { Link } from "./Link";
import { tableHref } from "./tableHref";
import type { TableFilter, TableQuery } from "./tableTypes";
import { words } from "./words";

export interface TableFiltersProps {
  at: TableQuery;
  /** Label of the search over this list; none leaves the search out. */
  search?: string | undefined;
  filters: readonly TableFilter[];
}

/** Search and filters of a list, as an ordinary form that asks for an address. */
export function TableFilters({ at, search, filters }: TableFiltersProps) {
  const id = useId();
  const { path, query } = at;
  const names = ["q", ...filters.map((filter) => filter.name)];
  const narrowed = names.some((name) => query[name]);
  const none = Object.fromEntries([...names, "after", "before"].map((name) => [name, undefined]));
  const kept = Object.entries(query).filter(([name, value]) => value && !(name in none));
  return (
    <Form
      key={JSON.stringify(query)}
      action={path}
      role="search"
      // A filter that a browser put back as one came back would send whoever did on again.
      autoComplete="off"
      className="mb-3 flex flex-wrap items-end gap-x-3 gap-y-2 print:hidden"
    >
      {kept.map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      {search && (
        <div className="min-w-40 flex-1 sm:max-w-80">
          <label htmlFor={`${id}q`} className="mb-0.5 block text-[14px] text-soft">
            {search}
          </label>
          <input
            id={`${id}q`}
            data-find
            type="search"
            name="q"
            defaultValue={query.q}
            autoComplete="off"
            className={CONTROL}
          />
        </div>
      )}
      {filters.map((filter) => (
        <div key={filter.name}>
          <label htmlFor={id + filter.name} className="mb-0.5 block text-[14px] text-soft">
            {filter.label}
          </label>
          <select
            id={id + filter.name}
            name={filter.name}
            defaultValue={query[filter.name] ?? ""}
            className={`${CONTROL} w-auto`}
            onChange={(event) => event.currentTarget.form?.requestSubmit()}
          >
            <option value="">{words.any}</option>
            {filter.options.map((option) => (
              <option key={option.value} value={option.value}>
                {option.label}
              </option>
            ))}
          </select>
        </div>
      ))}
      <button type="submit" className={buttonLook("second")}>
        {words.show}
      </button>
      {narrowed && (
        <Link
          href={tableHref(at, none)}
          className={buttonLook("quiet", "normal", "min-h-11 pointer-coarse:min-h-12")}
        >
          {words.clear}
        </Link>
      )}
    </Form>
  );
}
