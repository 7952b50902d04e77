-- The database of a folder with the tables of version 1: one invented job, a change of it, a test
-- with a reading. Never made anew: it stands for what lies on disks.
CREATE TABLE northwall_tables (version integer not null) strict;
insert into northwall_tables (version) values (1);
CREATE TABLE firm (
  id text primary key,
  name text not null,
  made integer not null
) strict;
insert into firm (id, name, made) values ('local', 'this machine', 0);
CREATE TABLE job (
  id text primary key,
  firm text not null references firm (id) on delete cascade,
  name text not null,
  stage text not null,
  revision integer not null,
  text text not null,
  updated integer not null,
  updated_by text not null
) strict;
insert into job (id, firm, name, stage, revision, text, updated, updated_by) values ('01a2189f-0001-7000-8000-000000000001', 'local', 'kept from before', 'visit', 2, '# First job, made from a few answers. The plan is a plain box: draw the rooms as they are,
# and put `seen = "tape"` (or borescope, label, ...) wherever somebody has looked.
# What carries no such word is taken as assumed.
northwall = 1

[job]
name = "kept from before"
stage = "visit"

[place]
weather = "weather/chicago-725300.epw.gz"
shelter = "suburban"
# snow_depth = "20 in"               # the number you would bet the outdoor unit on
# heating_design = "-5 F"            # from the code, with its source:
# heating_design_source = "..."

[[storey]]
name = "cellar"
floor = "-6 ft"
ceiling = "7 ft"

[[storey]]
name = "storey 1"
floor = "2 ft"
ceiling = "8 ft"

[[storey]]
name = "storey 2"
floor = "11 ft"
ceiling = "8 ft"

[[room]]
name = "cellar"
storey = "cellar"
outline = ["0 ft, 0 ft", "30 ft, 0 ft", "30 ft, 26 ft", "0 ft, 26 ft"]
used_for = "storage"               # not heated

[[room]]
name = "hall"
storey = "storey 1"
outline = ["0 ft, 11 ft", "30 ft, 11 ft", "30 ft, 15 ft", "0 ft, 15 ft"]
heated_to = "70 F"
used_for = "passage"
door_to = [{ room = "landing", width = "3 ft" }]   # the stair

[[room]]
name = "living"
storey = "storey 1"
outline = ["0 ft, 0 ft", "15 ft, 0 ft", "15 ft, 11 ft", "0 ft, 11 ft"]
heated_to = "70 F"
used_for = "living"
door_to = [{ room = "hall", usually = "open" }]

[[room]]
name = "kitchen"
storey = "storey 1"
outline = ["15 ft, 0 ft", "30 ft, 0 ft", "30 ft, 11 ft", "15 ft, 11 ft"]
heated_to = "70 F"
used_for = "kitchen"
door_to = [{ room = "hall", usually = "open" }]

[[room]]
name = "bath"
storey = "storey 1"
outline = ["0 ft, 15 ft", "30 ft, 15 ft", "30 ft, 26 ft", "0 ft, 26 ft"]
heated_to = "70 F"
used_for = "bath"
door_to = [{ room = "hall", usually = "open" }]

[[room]]
name = "landing"
storey = "storey 2"
outline = ["0 ft, 11 ft", "30 ft, 11 ft", "30 ft, 15 ft", "0 ft, 15 ft"]
heated_to = "70 F"
used_for = "passage"

[[room]]
name = "bed 1"
storey = "storey 2"
outline = ["0 ft, 0 ft", "15 ft, 0 ft", "15 ft, 11 ft", "0 ft, 11 ft"]
heated_to = "70 F"
used_for = "sleeping"
door_to = [{ room = "landing", usually = "closed" }]

[[room]]
name = "bed 2"
storey = "storey 2"
outline = ["15 ft, 0 ft", "30 ft, 0 ft", "30 ft, 11 ft", "15 ft, 11 ft"]
heated_to = "70 F"
used_for = "sleeping"
door_to = [{ room = "landing", usually = "closed" }]

[[room]]
name = "bed 3"
storey = "storey 2"
outline = ["0 ft, 15 ft", "30 ft, 15 ft", "30 ft, 26 ft", "0 ft, 26 ft"]
heated_to = "70 F"
used_for = "sleeping"
door_to = [{ room = "landing", usually = "closed" }]

[[window]]
room = "living"
wall = "south"
width = "4.5 ft"
height = "4 ft"
sill = "30 in"
count = 1
glazing = "double clear"

[[window]]
room = "kitchen"
wall = "south"
width = "4.5 ft"
height = "4 ft"
sill = "30 in"
count = 1
glazing = "double clear"

[[window]]
room = "bath"
wall = "north"
width = "4.5 ft"
height = "4 ft"
sill = "30 in"
count = 2
glazing = "double clear"

[[window]]
room = "bed 1"
wall = "south"
width = "4.5 ft"
height = "4 ft"
sill = "30 in"
count = 1
glazing = "double clear"

[[window]]
room = "bed 2"
wall = "south"
width = "4.5 ft"
height = "4 ft"
sill = "30 in"
count = 1
glazing = "double clear"

[[window]]
room = "bed 3"
wall = "north"
width = "4.5 ft"
height = "4 ft"
sill = "30 in"
count = 2
glazing = "double clear"

[[outer_door]]
room = "hall"
wall = "west"
u = "0.40 Btu/(h ft2 F)"

# About 1950 to 1980, some insulation. Nobody has looked yet: that is what `assumed` says.
[construction.wall]
like = "2x4 wall with batt"
known = "assumed"

[construction.ceiling]
like = "attic floor with 6 in batt"
known = "assumed"

# No blower-door test yet: 10 air changes an hour at 50 Pa for a house of this kind.
[leakage]
blower_door = "2080 cfm at 50 Pa"
known = "assumed"

[existing]
kind = "none"

# Prices with their day, then equipment by its names in the catalogue:
# [prices]
# as_of = "2026-11-01"
# electricity = "0.22 /kWh"
# oil = "3.90 /gal"
#
# [[outdoor]]
# name = "outdoor 1"
# unit = "..."
#
# [[head]]
# room = "living"
# unit = "..."
# on = "outdoor 1"
', 1795712283312, 'Ada');
CREATE INDEX job_of_firm on job (firm, updated);
CREATE TABLE revision (
  job text not null references job (id) on delete cascade,
  revision integer not null,
  change text not null,
  kind text not null,
  who text not null,
  at text not null,
  kept integer not null,
  edits text not null,
  packed blob not null,
  primary key (job, revision),
  unique (job, change)
) strict;
insert into revision (job, revision, change, kind, who, at, kept, edits, packed) values ('01a2189f-0001-7000-8000-000000000001', 1, '01a2189f-0001-7000-8000-000000000001', 'new', 'Ada', '2026-11-26T16:58:03+00:00', 1795712283205, '[]', X'C5574D6FDB3810BDF3570CA44B0B288AEC24FD02F6B07BC8B1E861811E0CC3A124DA622D8B5E928AE22EFADFF70D253B8EA36DB21BB4CD21F0F063E6BDE1CC6826A66B6D9DA72F264F68234B454B6B362469A93A928DEB947529FD5929DAD6B221EDB0855FBAA1DCDC7DA0D2CA8E3C76AD311BEC39167624AD4A448CFB256D5B4F374EA9867EA3C8CBAD8A6EE895B1B86E952BCC562554CB5CD509A569FA9ABA4A5975AB2C39B351B92977544947B5316B55A650F9B9929E0A69AD568E1A43AE2D2AEA8C2D199A976BD8C179E95CBBE10B8DB1BEEA645DC3FA4488D91793CF4523370A72F41114B11009E7E52AACDC6AA77D24C40C140B35179D922067F9F0F0F3BCA8742157E6ECEDF4EA22CB52B5EDD2D557A8A854ED011B245D9BB736974D2462728DE916A5DAFA8A754C33D24D440FFF62761935ED26C7F59D69C1A6AD4BCA950F1BA6F5A53196DA467B320D745600A59B15D43ABD0A6E3DBBA2EB076AE3FE15819D0A53C2C59D0602ED1D39D3DA427D78A466D16F304ABC4324C46CE6BCB16A37BFF757A1EA5ADA482C6B0604A6676F680977154AD700C477DF8685B1CBBD369A1C5D9F86C347B7DF8585EFDC9E1EDD9E4CC2E9B1EB16C138827B8000E07B26A6F540CE4F3F8B32A84B88FF47094517FCE391380D84B1DDEFF6E25CB44E958B251E09AAD908A229A2877F3182D5133F9D2AD9B927102B84288228789CFDC85AD48EBDF518624F1C20068C8FE42B30610E3DC84910E7A2B7BDF086F5BFCD10310F706F91338C5B70B4F5A7667F13C3E4F3C8FD124F0CAD9D2E114A207AC156E8DB1C3CFB10765E6A3BC2ADD6B77C1559C6F1C4DABEC78E41C34C1460DF3FC0201EB8F2B1847AF1496E7B04A3D482EB136A5D8B37D8313C142564E9B7F90897B5F645A590DA0305F861F885C03E7EAA012FC36436C3539D883D7CBCE470BA979FA47300F1723E39EADBB3E32E0412D00E6402E823727D36609F5926D48B4F92E911BC9CC93E421F87198AC6F1CBF4E87A5703EC9E4CA82647F29EEC703C884F923924116A18A7CE5111CA55C9E93C44CB7DDC8CA263A3ECD9E0E2844EC403765E4F9E9B04AE566A1B1271D4D97BFF3DC884A236286D11B27C24179811D03FC5E884C3E06F86CE0C07F1406938DDCB4FFAFB8770BA184908F01C89A1101423313390EA3300FB4CF6D909F1724E9D6E4AD321F63804B9A0EDEBDFD00845F8D6FB2A1287527E990626F844E855E5F9C6251777E174689CF86388BE4514A66D78772256B5FC8A50E293A569F35A51512B6E0D10F78FAC1FCAD5AF31DF1798BDED861BC2FF4F7DFADFA8738AE0C3B037FE73FDCEC611B7BFCE3812696FFC87BA1D99A9EC82ABDA51CC87CFBAD8DBEF9443A3DA72C066E965467FF8F6FC5585209FD2F5EB48A01DFE3D871A9ABCBFCA082DD2E4FDBB2C41B38C414137AEADA5D7A649E9A339194968A7FC07F4E9184A301A753C9CDCA091E2E1E3869CDCB954CC0AD3386FDB22A860407351EB35379DD1F4EE9278853AEECF11A900B96E4C17BAFA410FD03D543174BCF75AA4F7BAA065E8CA83A2371833E85FB5C5A041796D3A65CFD869E4E19C9EC82423A92D15956C5698AF30F055981708ECE0964F180AD1E34AC29A536496E0AD1DAD516DC012F9BF46FF3817BDE645D08CCFDC347B9751B1DC1C9444628CA1BAD3CEA3A4CC05EBE3776A4CA3C03DA64F561700139861A201BE52EE1218C7ACA7FE6AF576A35096F21D69CC370D663BC7F471920AE9656D566D987766DBA0678EB7966E01F401DCF4CDD964729621496352B52A3C0E691FDAC02C9D4EE97CFD19953226A379848C2ED2F7199DAF648DE10E8A6633D37A668AC08B896D33F2618D3FF7713FB7C15498AAE270A752B20C174EEBF3E969CC7B27FAFE01');
insert into revision (job, revision, change, kind, who, at, kept, edits, packed) values ('01a2189f-0001-7000-8000-000000000001', 2, '01a2189f-0001-7000-8000-000000000002', 'edits', 'Ada', '2026-11-26T16:58:03+00:00', 1795712283312, '[{"path":"job.name","value":"kept from before","was":"New job"}]', X'C5574D8FDB3610BDF3570CE44B0268B5B277375F400FED21C72287023918869792688BB12CBA2415C529F2DFFB8694BD5EAFD2DD7691C60743143933EF0D674633137AAFADF3F4C914296D65A56865CD9624AD544FB275BDB22EA33F6A45BB46B6A41DB6F0A45B2ACC97775459D993C7AE35668B3DC78B3D49AB5231817C45BBCED3AD53AAA55F28F172A7925B7A612CC4AD72A5D9A9941A59A826A52CCB5E525F2BAB3E2B4BCE6C5561AA3DD5D25163CC465519547EACA5A7525AAB95A3D690EBCA9A7A632B86E6E50676705E3AD76D59A035D6D7BD6C1A589F0A31FF648A8568E556619D6CD4CE47BA855A19AB12E1BC5C87ADCFDA699F083107D7522D44AF24585A961A1E2FCB5A97726D2E5ECF6EAEF23C53BB3E5B7F858A5A351EF8C1D67545670BD9266242AE35FDB282C19A75CC72D26D42F77F13F61DB5DDB680F8DE74A0D5351515CA870DD3F9CA184B5DAB3D99163A6B80D2ED1A6A9D5E07FF5EDCD0FB7B6A27911FB053692AF8BAD7BE26ED1D39D3D952BD7BA066193718252E2411623E771ECED92FEE1C57AAA6913611AB860181E9C52B5AC15DA5D20D00B1ECEBF0624C386AA3E989F82C1C3E917E135EFC83F4EC447A3A0DA7C7C42DA27204F70001C00F4C4CE7819CAF7E9EE4509712FF27292557FCF060390B84B11D77E372213AA7AA2542893DC046104D09DDFF4D10B59EF8EA54C5CE3D835823561144C1E3072D6ACFDE7A083112078801E383F50D98308708721A960B116D2FBD61FDAF7344CC3DDC3B240FE3161C6DF1D4FC2F62987C1E45A0C215436BAF2B84127C78C556E8DB023C63083B2FB51DE1D6E8CF2C8A2CE378626DECA3EFB163D0309304D87717302C8F5CF9584A71F928B70382516AC1F52975AEC31DEC191EAA13B2F4DB6284CB46FBB25648ED8102FC303C21B04FAF6AC0CB3099CD705567CB081F37399C8EEB47E91C413C9F4F81FAF6E4B80B8104B4039900FA845CCC06EC33CB94E2F2513211C1F3991C22F46198A1689CDE4C44175D0DB00732A19A9CAC0F6487E361F928996312A18671EA9C14A142559CCE43B4DCC5CD283A36CA9E0D2E4EE96C79C4CEEFD3A726816B94DA85441C75F6C17FF732A16C0C4A5B822C1FC9056604F48F313AE330F89BA133C36179A4349C8EEB47FDFD43385D8D2404788EC450088A91981948C50CC03E937D72423C9F53AFDBCAF4883D0E412E6887FA37744409BEF5BE4EC4B1945F6781093E117A5D7B96B8E6E22E9C0E1D147F0CD1B788D2742DEF4EC5BA915F114A7CB2325DD1282A1BC5AD01E2FE81F563B9FA39E6638139D86EB933FCEFD467FF8E3AA7083E0C07E3FFAFDFD938E2F6E71947221D8CFF50B72333955D72553B89F9F0591707FBBD7268543B0ED83CBBCEE937DF5DBEA811E4337AFF321168877F2DA086A66F6F72428B347DFB264FD12C6362D0ADEB1AE9B56933FADD9CCD26B457FE1DFA744C2798917A9E526ED148F114724B4EEE5D26E6A5699DB75D195430A08568F4869BCE64F6E59AF80DF5DC9F23520172D39A3E74F5831EA0BBAF62E878EFB448EF7549ABD0950745AF3066D077B54D40838AC6F4CA5EB0D3C8C33991C83427A92D95B56CD718B430F9D5981708ECE0960F980E318848C23BA7C8ACC05B3BDAA0DA8025F27F83FE7121A2E665D08CCFDC2C7F9353B9DA1E9524628CA1FAA29D47495908D6C7F7D49A16A3196EE683D525C00466986880AF92FB14C631F4A93F3BBDDB2A94A5621FE69B16439E63FA3849A5F4B231EB2ECC3BF35DD0B38046E996401FC0CD5E5D4CA71739927442AA51A5C721ED431B9867B3195D6E3EA2524EC8689E2593ABEC6D4E976BD960B883A2F9DC749E9922F026C4B619F9F08E3FF79338B7C15498AA2641A656B20A02E7F5F9FC34E6BD337D7F03');
CREATE TABLE conflict (
  job text not null references job (id) on delete cascade,
  change text not null,
  who text not null,
  at text not null,
  kept integer not null,
  base integer not null,
  edits text not null,
  settled integer,
  settled_by text not null,
  primary key (job, change)
) strict;
CREATE TABLE record (
  job text not null references job (id) on delete cascade,
  n integer not null,
  id text not null,
  line text not null,
  primary key (job, n),
  unique (job, id)
) strict;
insert into record (job, n, id, line) values ('01a2189f-0001-7000-8000-000000000001', 1, '01a2189f-0001-7000-8000-000000000003', '{"n":1,"at":"2026-11-26T16:58:04+00:00","who":"Ada","kind":"test","says":{"test":"t","rests_on":{"kind":"pressure","refrigerant":"R-32","elevation":null,"lines":[{"tube":"1/4 in","length":"24 ft"}],"volumes":[],"gauge":{"id":"g","accuracy":"2 psi","step":"0.1 psi","share":null,"calibrated":null},"thermometer":{"id":"t","accuracy":"1 K","step":"0.1 K","share":null,"calibrated":null},"plate":"600 psi","target":"550 psi","worth":"200 g","wander":null,"reach":null,"limit":null,"hold":null,"source":null,"gauge_at":null,"coldest":null,"pressure_test_saw":null}},"before":"northwall","hash":"d580df2aaf9fb03b6c308e859c542082b3a38acf21a5db0ec906a04b2e476d5d"}
');
insert into record (job, n, id, line) values ('01a2189f-0001-7000-8000-000000000001', 2, '01a2189f-0001-7000-8000-000000000004', '{"n":2,"at":"2026-11-25T10:00:00+00:00","who":"Ada","kind":"pressure-reading","says":{"test":"t","at":"2026-11-25T10:00:00+00:00","at_s":1795600800.0,"pa":3792116.5112425983,"line_c":21.11111111111111,"typed":"550 psi, 70 F"},"before":"d580df2aaf9fb03b6c308e859c542082b3a38acf21a5db0ec906a04b2e476d5d","hash":"519569822d1772eee384ff59817676573e34ae6f55cedcc9e19db9967aae63d1"}
');
CREATE TABLE photo (
  id text primary key,
  job text not null references job (id) on delete cascade,
  shows text not null,
  note text not null,
  who text not null,
  at text not null,
  kept integer not null,
  kind text not null,
  width integer not null,
  height integer not null,
  bytes blob not null,
  small blob not null
) strict;
CREATE INDEX photo_of_job on photo (job, kept);
