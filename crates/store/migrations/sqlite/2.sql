create table person (
  id text primary key,
  firm text not null references firm (id) on delete cascade,
  name text not null,
  email text not null unique,
  role text not null,
  word text not null,
  made integer not null
) strict;

create table session (
  hash text primary key,
  person text not null references person (id) on delete cascade,
  made integer not null,
  ends integer not null
) strict;

create table invitation (
  hash text primary key,
  firm text not null references firm (id) on delete cascade,
  name text not null,
  email text not null,
  role text not null,
  made_by text not null,
  ends integer not null
) strict;

create table link (
  id text primary key,
  job text not null references job (id) on delete cascade,
  hash text not null unique,
  made integer not null,
  made_by text not null,
  ends integer not null,
  withdrawn integer
) strict;

create table audit (
  n integer primary key,
  firm text not null references firm (id) on delete cascade,
  at integer not null,
  who text not null,
  what text not null,
  place text not null
) strict;
create index audit_of_firm on audit (firm, n);
