create table person (
  id text primary key,
  firm text not null references firm (id) on delete cascade,
  name text not null,
  email text not null unique,
  role text not null,
  word text not null,
  made bigint not null
);

create table session (
  hash text primary key,
  person text not null references person (id) on delete cascade,
  made bigint not null,
  ends bigint not null
);

create table invitation (
  hash text primary key,
  firm text not null references firm (id) on delete cascade,
  name text not null,
  email text not null,
  role text not null,
  made_by text not null,
  ends bigint not null
);

create table link (
  id text primary key,
  job text not null references job (id) on delete cascade,
  hash text not null unique,
  made bigint not null,
  made_by text not null,
  ends bigint not null,
  withdrawn bigint
);

create table audit (
  n bigserial primary key,
  firm text not null references firm (id) on delete cascade,
  at bigint not null,
  who text not null,
  what text not null,
  place text not null
);
create index audit_of_firm on audit (firm, n);
