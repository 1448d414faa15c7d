BEGIN TRANSACTION;
CREATE TABLE alembic_version (
	version_num VARCHAR(32) NOT NULL, 
	CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num)
);
INSERT INTO "alembic_version" VALUES('0004');
CREATE TABLE bench_events (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	piece_id INTEGER NOT NULL, 
	version INTEGER NOT NULL, 
	at VARCHAR(27) NOT NULL, 
	kind VARCHAR(20) NOT NULL, 
	subject VARCHAR(300) NOT NULL, 
	figure FLOAT, 
	unit VARCHAR(8) NOT NULL, 
	note VARCHAR(1000) NOT NULL, 
	"key" VARCHAR(64), 
	takes_back INTEGER, 
	CONSTRAINT uq_bench_events_piece_id UNIQUE (piece_id, "key"), 
	CONSTRAINT uq_bench_events_takes_back UNIQUE (takes_back), 
	CONSTRAINT fk_bench_events_piece_id_versions FOREIGN KEY(piece_id, version) REFERENCES versions (piece_id, number), 
	CONSTRAINT fk_bench_events_takes_back_bench_events FOREIGN KEY(takes_back) REFERENCES bench_events (id)
);
INSERT INTO "bench_events" VALUES(1,2,1,'2026-03-01T08:05:00.000000Z','measured','leg.width',44.5,'mm','','k',NULL);
INSERT INTO "bench_events" VALUES(2,2,1,'2026-03-01T08:06:00.000000Z','step done','Plane',NULL,'','',NULL,NULL);
INSERT INTO "bench_events" VALUES(3,2,1,'2026-03-01T08:07:00.000000Z','taken back','',NULL,'','',NULL,2);
CREATE TABLE boards (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	came_from INTEGER, 
	CONSTRAINT fk_boards_came_from_boards FOREIGN KEY(came_from) REFERENCES boards (id)
);
INSERT INTO "boards" VALUES(1,NULL);
CREATE TABLE pictures (
	digest VARCHAR(64) NOT NULL, 
	made_by VARCHAR(40) NOT NULL, 
	svg TEXT NOT NULL, 
	CONSTRAINT pk_pictures PRIMARY KEY (digest)
);
CREATE TABLE pieces (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	name VARCHAR(200) NOT NULL, 
	begun_at VARCHAR(27) NOT NULL, 
	changed_at VARCHAR(27) NOT NULL, 
	current INTEGER NOT NULL, 
	put_away_at VARCHAR(27), 
	CONSTRAINT uq_pieces_name UNIQUE (name)
);
INSERT INTO "pieces" VALUES(1,'Bench','2026-03-01T08:01:00.000000Z','2026-03-01T08:03:00.000000Z',1,NULL);
INSERT INTO "pieces" VALUES(2,'Hall chair — Esche','2026-03-01T08:04:00.000000Z','2026-03-01T08:04:00.000000Z',1,NULL);
CREATE TABLE profile_versions (
	profile_id INTEGER NOT NULL, 
	number INTEGER NOT NULL, 
	parent INTEGER, 
	forward INTEGER, 
	made_at VARCHAR(27) NOT NULL, 
	why VARCHAR(500) NOT NULL, 
	text VARCHAR(64) NOT NULL, 
	CONSTRAINT pk_profile_versions PRIMARY KEY (profile_id, number), 
	CONSTRAINT fk_profile_versions_profile_id_profiles FOREIGN KEY(profile_id) REFERENCES profiles (id), 
	CONSTRAINT fk_profile_versions_profile_id_profile_versions FOREIGN KEY(profile_id, parent) REFERENCES profile_versions (profile_id, number), 
	CONSTRAINT fk_profile_versions_text_texts FOREIGN KEY(text) REFERENCES texts (hash)
);
INSERT INTO "profile_versions" VALUES(1,1,NULL,NULL,'2026-03-01T09:31:00.000000Z','Begun','202ccb2b92f4f503028cb169b6d8de50db2f4cb693fa72acd54c68276c34e892');
CREATE TABLE profiles (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	kind VARCHAR(8) NOT NULL, 
	name VARCHAR(200) NOT NULL, 
	begun_at VARCHAR(27) NOT NULL, 
	changed_at VARCHAR(27) NOT NULL, 
	current INTEGER NOT NULL, 
	put_away_at VARCHAR(27), 
	CONSTRAINT uq_profiles_kind UNIQUE (kind, name)
);
INSERT INTO "profiles" VALUES(1,'shop','Shed — Süd','2026-03-01T09:31:00.000000Z','2026-03-01T09:31:00.000000Z',1,NULL);
CREATE TABLE stock_acts (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	at VARCHAR(27) NOT NULL, 
	kept_at VARCHAR(27) NOT NULL, 
	note VARCHAR(1000) NOT NULL, 
	takes_back INTEGER, 
	CONSTRAINT uq_stock_acts_takes_back UNIQUE (takes_back), 
	CONSTRAINT fk_stock_acts_takes_back_stock_acts FOREIGN KEY(takes_back) REFERENCES stock_acts (id)
);
INSERT INTO "stock_acts" VALUES(1,'2026-03-01T09:00:00.000000Z','2026-03-01T09:00:00.000000Z','x',NULL);
INSERT INTO "stock_acts" VALUES(2,'2026-03-01T09:01:00.000000Z','2026-03-01T09:01:00.000000Z','',NULL);
INSERT INTO "stock_acts" VALUES(3,'2026-03-01T09:02:00.000000Z','2026-03-01T09:02:00.000000Z','',NULL);
CREATE TABLE stock_events (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	act_id INTEGER NOT NULL, 
	board_id INTEGER NOT NULL, 
	kind VARCHAR(20) NOT NULL, 
	"row" TEXT, 
	figure FLOAT, 
	party VARCHAR(200) NOT NULL, 
	piece_id INTEGER, 
	CONSTRAINT fk_stock_events_act_id_stock_acts FOREIGN KEY(act_id) REFERENCES stock_acts (id), 
	CONSTRAINT fk_stock_events_board_id_boards FOREIGN KEY(board_id) REFERENCES boards (id), 
	CONSTRAINT fk_stock_events_piece_id_pieces FOREIGN KEY(piece_id) REFERENCES pieces (id)
);
INSERT INTO "stock_events" VALUES(1,1,1,'bought','{"name": "A1", "species": "black cherry", "thickness": "4/4", "width": "190", "length": "2400", "far_width": "", "left_trim": "", "right_trim": "", "moisture": "8", "price": "", "price_per": "", "first_cut": "", "rings": "", "flitch": "", "sequence": "", "grade": "", "defects": "", "note": "", "photo": ""}',NULL,'Yard by the river',NULL);
INSERT INTO "stock_events" VALUES(2,2,1,'read',NULL,7.5,'',NULL);
INSERT INTO "stock_events" VALUES(3,3,1,'used',NULL,NULL,'Bench',1);
CREATE TABLE texts (
	hash VARCHAR(64) NOT NULL, 
	text TEXT NOT NULL, 
	CONSTRAINT pk_texts PRIMARY KEY (hash)
);
INSERT INTO "texts" VALUES('140add19d51b4280c902b46d29c7d41c1407bd028f606a8c995bcdad478accbb','title: Bench
# a
');
INSERT INTO "texts" VALUES('17901afc4df3e3d46cb762e342e9b8d51fd5755e34dbdcec6230a85c2c3a11fc','name,species
A1,cherry
');
INSERT INTO "texts" VALUES('77d6ec2353bc846d8a619010a23457a93588df2ec6cbd13de1d9cf08986d7b8c','title: Bench
# b
');
INSERT INTO "texts" VALUES('e31b418bd55e816e7501c1af006940cf5f683c6c4ab41db4c2f1701e59aedec5','title: Bench
# ü
');
INSERT INTO "texts" VALUES('202ccb2b92f4f503028cb169b6d8de50db2f4cb693fa72acd54c68276c34e892','name: Shed
# ü
');
CREATE TABLE versions (
	piece_id INTEGER NOT NULL, 
	number INTEGER NOT NULL, 
	parent INTEGER, 
	forward INTEGER, 
	restores INTEGER, 
	made_at VARCHAR(27) NOT NULL, 
	why VARCHAR(500) NOT NULL, 
	digest VARCHAR(64) NOT NULL, 
	given TEXT NOT NULL, 
	piece_text VARCHAR(64) NOT NULL, 
	shop_name VARCHAR(200), 
	shop_text VARCHAR(64), 
	rack_name VARCHAR(200), 
	rack_text VARCHAR(64), 
	room_name VARCHAR(200), 
	room_text VARCHAR(64), 
	CONSTRAINT pk_versions PRIMARY KEY (piece_id, number), 
	CONSTRAINT fk_versions_piece_id_pieces FOREIGN KEY(piece_id) REFERENCES pieces (id), 
	CONSTRAINT fk_versions_piece_id_versions FOREIGN KEY(piece_id, parent) REFERENCES versions (piece_id, number), 
	CONSTRAINT fk_versions_piece_text_texts FOREIGN KEY(piece_text) REFERENCES texts (hash), 
	CONSTRAINT fk_versions_shop_text_texts FOREIGN KEY(shop_text) REFERENCES texts (hash), 
	CONSTRAINT fk_versions_rack_text_texts FOREIGN KEY(rack_text) REFERENCES texts (hash), 
	CONSTRAINT fk_versions_room_text_texts FOREIGN KEY(room_text) REFERENCES texts (hash)
);
INSERT INTO "versions" VALUES(1,1,NULL,2,NULL,'2026-03-01T08:01:00.000000Z','Begun','6ab0d4186297e80b0746a8ddd51d520820e3b4efed99b49baedad63f1ce3024d','{}','140add19d51b4280c902b46d29c7d41c1407bd028f606a8c995bcdad478accbb',NULL,NULL,'cherry.csv','17901afc4df3e3d46cb762e342e9b8d51fd5755e34dbdcec6230a85c2c3a11fc',NULL,NULL);
INSERT INTO "versions" VALUES(1,2,1,NULL,NULL,'2026-03-01T08:02:00.000000Z','Wider','9f8b95bbd9f89f3b83fe5d8c5965a4dbddae5f1b302430d4103e6adf349fb0bf','{"width": "1 m"}','77d6ec2353bc846d8a619010a23457a93588df2ec6cbd13de1d9cf08986d7b8c',NULL,NULL,'cherry.csv','17901afc4df3e3d46cb762e342e9b8d51fd5755e34dbdcec6230a85c2c3a11fc',NULL,NULL);
INSERT INTO "versions" VALUES(2,1,NULL,NULL,NULL,'2026-03-01T08:04:00.000000Z','Begun','a0142d3ffd0e37da1647bdd7856f353d9ae675b391936ad4226540f4c981693a','{}','e31b418bd55e816e7501c1af006940cf5f683c6c4ab41db4c2f1701e59aedec5',NULL,NULL,'cherry.csv','17901afc4df3e3d46cb762e342e9b8d51fd5755e34dbdcec6230a85c2c3a11fc',NULL,NULL);
CREATE INDEX ix_stock_events_board_id ON stock_events (board_id);
CREATE INDEX ix_profile_versions_text ON profile_versions (text);
DELETE FROM "sqlite_sequence";
INSERT INTO "sqlite_sequence" VALUES('pieces',2);
INSERT INTO "sqlite_sequence" VALUES('bench_events',3);
INSERT INTO "sqlite_sequence" VALUES('stock_acts',3);
INSERT INTO "sqlite_sequence" VALUES('boards',1);
INSERT INTO "sqlite_sequence" VALUES('stock_events',3);
INSERT INTO "sqlite_sequence" VALUES('profiles',1);
COMMIT;
