BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'followup','m001_people','2026-11-25 20:00:46.326803+00:00');
INSERT INTO "_sqlite_migrations" VALUES(2,'followup','m002_eyes','2026-11-25 20:00:46.329317+00:00');
INSERT INTO "_sqlite_migrations" VALUES(3,'followup','m003_worries','2026-11-25 20:00:46.332136+00:00');
INSERT INTO "_sqlite_migrations" VALUES(4,'followup','m004_audit','2026-11-25 20:00:46.333594+00:00');
CREATE TABLE audit (
            number INTEGER PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, action TEXT NOT NULL, subject TEXT NOT NULL,
            detail TEXT NOT NULL, previous TEXT NOT NULL, hash TEXT NOT NULL
        ) STRICT;
INSERT INTO "audit" VALUES(1,'2027-03-02T14:00:00.000000Z','command line','staff added','01a2144b-defe-7261-b55f-8aa84bf5f63f','{"role":"nurse"}','0000000000000000000000000000000000000000000000000000000000000000','9ee391cca6634a74cc00d08bcffccdaa88792e3d364420e0853a80cc878c24e6');
INSERT INTO "audit" VALUES(2,'2027-03-02T14:00:00.000000Z','command line','staff added','01a2144b-defe-7261-b55f-8aa95984533a','{"role":"surgeon"}','9ee391cca6634a74cc00d08bcffccdaa88792e3d364420e0853a80cc878c24e6','e907187f42e8e62ba8f59775ed90b96577a7cc9f6912506bd62e9c5405750845');
INSERT INTO "audit" VALUES(3,'2027-03-02T19:00:00.000000Z','nurse:01a2144b-defe-7261-b55f-8aa84bf5f63f','enrolment code','01a2144b-deff-7226-8472-db6d8b9a9f11','null','e907187f42e8e62ba8f59775ed90b96577a7cc9f6912506bd62e9c5405750845','1d764a62d0af7783134a07be4dd060fed81d1dc023dfa1ea6bf8e97cf30366cc');
INSERT INTO "audit" VALUES(4,'2027-03-02T19:00:00.000000Z','nurse:01a2144b-defe-7261-b55f-8aa84bf5f63f','discharge','01a2144b-deff-7226-8472-db6e9e50ce54','{"agent":"c2f6","eye":"right"}','1d764a62d0af7783134a07be4dd060fed81d1dc023dfa1ea6bf8e97cf30366cc','38c406112da274239e18657de4fdf2c74c4c6b4e31b205b9848bd2a2e31f7195');
INSERT INTO "audit" VALUES(5,'2027-03-02T19:00:00.000000Z','nurse:01a2144b-defe-7261-b55f-8aa84bf5f63f','enrolment code','01a2144b-df01-7152-b9ea-241caf3c9ebc','null','38c406112da274239e18657de4fdf2c74c4c6b4e31b205b9848bd2a2e31f7195','d92c2eb8424265af3804e497b0cfd7e8c6f95344e4344d4cf5fc02d24270fb5c');
INSERT INTO "audit" VALUES(6,'2027-03-02T19:00:00.000000Z','nurse:01a2144b-defe-7261-b55f-8aa84bf5f63f','discharge','01a2144b-df01-7152-b9ea-241d71b8e550','{"agent":"silicone-oil","eye":"right"}','d92c2eb8424265af3804e497b0cfd7e8c6f95344e4344d4cf5fc02d24270fb5c','8191a32965b77537e6232d1ca6a31e746c0eb6c118099e23aa5d5e72b5090428');
INSERT INTO "audit" VALUES(7,'2027-03-02T20:00:00.000000Z','patient:01a2144b-df02-74d6-9e46-75e31031ea13','device enrolled','01a2144b-deff-7226-8472-db6d8b9a9f11','null','8191a32965b77537e6232d1ca6a31e746c0eb6c118099e23aa5d5e72b5090428','3e39898575dcec2f46680a054dd910833bb7713766a321205d02fb1b14245b07');
INSERT INTO "audit" VALUES(8,'2027-03-05T10:00:00.000000Z','patient:01a2144b-df02-74d6-9e46-75e31031ea13','event posture','01a2144b-deff-7226-8472-db6e9e50ce54','{"id":"0195e5a0-0000-7000-8000-000000000001"}','3e39898575dcec2f46680a054dd910833bb7713766a321205d02fb1b14245b07','a27ca2d01544799d3110e647436734fd449e45b6ea52e528a1aba82826048703');
INSERT INTO "audit" VALUES(9,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-deff-7226-8472-db6e9e50ce54','{"how_soon":"today","rule":"missed-early-visit"}','a27ca2d01544799d3110e647436734fd449e45b6ea52e528a1aba82826048703','8673bb15773fd77ce0a2ab2d41408b65143da9b5874b21f65664fb68eabddfb5');
INSERT INTO "audit" VALUES(10,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-deff-7226-8472-db6e9e50ce54','{"how_soon":"today","rule":"posture-missed"}','8673bb15773fd77ce0a2ab2d41408b65143da9b5874b21f65664fb68eabddfb5','afaf8fbc66c991e8d0a624676f4bd73386908aa624428b8a8d62a413eec44237');
INSERT INTO "audit" VALUES(11,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-deff-7226-8472-db6e9e50ce54','{"how_soon":"today","rule":"silent-while-posturing"}','afaf8fbc66c991e8d0a624676f4bd73386908aa624428b8a8d62a413eec44237','3993da00c5b02800b31e4e5315afd35f54db833be9c6cc5c7a80e78cf5704c8a');
INSERT INTO "audit" VALUES(12,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-deff-7226-8472-db6e9e50ce54','{"how_soon":"today","rule":"no-posture-entry"}','3993da00c5b02800b31e4e5315afd35f54db833be9c6cc5c7a80e78cf5704c8a','50a32074ca0b7309f953e5f1ba075a16d94953ff40240f4097d23e2e81109867');
INSERT INTO "audit" VALUES(13,'2027-03-05T10:00:00.000000Z','patient:01a2144b-df02-74d6-9e46-75e31031ea13','event symptoms','01a2144b-deff-7226-8472-db6e9e50ce54','{"id":"0195e5a0-0000-7000-8000-000000000002"}','50a32074ca0b7309f953e5f1ba075a16d94953ff40240f4097d23e2e81109867','649cd7b4d563199557a68bdb01120e440901b2cd85f6df1a6a891b733dcee1d8');
INSERT INTO "audit" VALUES(14,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-deff-7226-8472-db6e9e50ce54','{"how_soon":"now","rule":"infection-suspected"}','649cd7b4d563199557a68bdb01120e440901b2cd85f6df1a6a891b733dcee1d8','97de62e78d76a29f263d59eee048a387b9fcea037221220bd271ea62bb804ac0');
INSERT INTO "audit" VALUES(15,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-deff-7226-8472-db6e9e50ce54','{"how_soon":"now","rule":"severe-pain"}','97de62e78d76a29f263d59eee048a387b9fcea037221220bd271ea62bb804ac0','ef04f169f6906542f4862819ed4aa0d3cecfc1f9d374b0109d6d267e2630cccf');
INSERT INTO "audit" VALUES(16,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-deff-7226-8472-db6e9e50ce54','{"how_soon":"today","rule":"curtain"}','ef04f169f6906542f4862819ed4aa0d3cecfc1f9d374b0109d6d267e2630cccf','137bc7f4e06e58bd52ea8ec1a5adec19af8fa3c8dff461abefda1d2f8aa3d4fa');
INSERT INTO "audit" VALUES(17,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-deff-7226-8472-db6e9e50ce54','{"how_soon":"today","rule":"pain"}','137bc7f4e06e58bd52ea8ec1a5adec19af8fa3c8dff461abefda1d2f8aa3d4fa','e407b3df77f5b51c4b29d8396bf54747b31787c6ef1e563372bc02ff07df9ba3');
INSERT INTO "audit" VALUES(18,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-deff-7226-8472-db6e9e50ce54','{"how_soon":"today","rule":"vision-worse"}','e407b3df77f5b51c4b29d8396bf54747b31787c6ef1e563372bc02ff07df9ba3','f1ab7d99404b37551e186b0732107e79cd39446ec355f047dc32bbe6f816b18b');
INSERT INTO "audit" VALUES(19,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-defe-7261-b55f-8aa84bf5f63f','event measures','01a2144b-deff-7226-8472-db6e9e50ce54','{"id":"01a2144b-df12-7648-aa32-d3ca7a03dd6b"}','f1ab7d99404b37551e186b0732107e79cd39446ec355f047dc32bbe6f816b18b','fea74912d4ed02c462587a6aa5e7d811e35af47974155cc8daf8089329865665');
INSERT INTO "audit" VALUES(20,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-defe-7261-b55f-8aa84bf5f63f','event seen','01a2144b-deff-7226-8472-db6e9e50ce54','{"id":"01a2144b-df12-7648-aa32-d3cb5f68a12e"}','fea74912d4ed02c462587a6aa5e7d811e35af47974155cc8daf8089329865665','972eb8e10106a9a1cb6ab0f86ba8482c2f7c6234b1bc3fe431065f41ff333894');
INSERT INTO "audit" VALUES(21,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-deff-7226-8472-db6e9e50ce54','{"how_soon":"now","rule":"pressure-severe"}','972eb8e10106a9a1cb6ab0f86ba8482c2f7c6234b1bc3fe431065f41ff333894','9d114fe92201c26928208ba97385e9da5111251137e5910249d51efa93770892');
INSERT INTO "audit" VALUES(22,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-deff-7226-8472-db6e9e50ce54','{"how_soon":"today","rule":"pressure-spike"}','9d114fe92201c26928208ba97385e9da5111251137e5910249d51efa93770892','3c41ecbd1f5f3fe84033c32e2958e4d7c16653dbc69efe9c6a48c1455b4659d1');
INSERT INTO "audit" VALUES(23,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-deff-7226-8472-db6e9e50ce54','{"how_soon":"this-week","rule":"pressure-raised"}','3c41ecbd1f5f3fe84033c32e2958e4d7c16653dbc69efe9c6a48c1455b4659d1','9500097d8217a08f1e2ef50899cf6f1b13c3053bd350974d41fcd6936f9c116a');
INSERT INTO "audit" VALUES(24,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-deff-7226-8472-db6e9e50ce54','{"how_soon":"this-week","rule":"pressure-rise"}','9500097d8217a08f1e2ef50899cf6f1b13c3053bd350974d41fcd6936f9c116a','d81bc6d557deb554ff4c81687a2160227a743bebb1f53f3867a5cb125bc8c42b');
INSERT INTO "audit" VALUES(25,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-defe-7261-b55f-8aa84bf5f63f','event measures','01a2144b-df01-7152-b9ea-241d71b8e550','{"id":"01a2144b-df17-766f-a30c-d5486ff5233c"}','d81bc6d557deb554ff4c81687a2160227a743bebb1f53f3867a5cb125bc8c42b','3752f37f4617107253ff7399029b427ddb88750638ecf4444cdab8c8fcb6325e');
INSERT INTO "audit" VALUES(26,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-df01-7152-b9ea-241d71b8e550','{"how_soon":"today","rule":"missed-early-visit"}','3752f37f4617107253ff7399029b427ddb88750638ecf4444cdab8c8fcb6325e','e08258a8ed70a73fc37513f264623a576cbe34c7fb1a9663ff6e1ddf431d3382');
INSERT INTO "audit" VALUES(27,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-df01-7152-b9ea-241d71b8e550','{"how_soon":"today","rule":"no-posture-entry"}','e08258a8ed70a73fc37513f264623a576cbe34c7fb1a9663ff6e1ddf431d3382','83886f845ac4122cc6f6282ea0127780f6cfb1481d535e32f6db38f3b2f6b4e9');
INSERT INTO "audit" VALUES(28,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-df01-7152-b9ea-241d71b8e550','{"how_soon":"today","rule":"silent-while-posturing"}','83886f845ac4122cc6f6282ea0127780f6cfb1481d535e32f6db38f3b2f6b4e9','4a8e977545918709ff5f9070c78a7ed4047588060bdab10cf4e0f160269182b5');
INSERT INTO "audit" VALUES(29,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-defe-7261-b55f-8aa84bf5f63f','visit brought forward','01a2144b-deff-7226-8472-db6e9e50ce54','{"latest":"2027-03-08"}','4a8e977545918709ff5f9070c78a7ed4047588060bdab10cf4e0f160269182b5','980c23c5e57244ce8f0f8068e446e2e448af81491ed90b29b51fcb0804690413');
INSERT INTO "audit" VALUES(30,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-defe-7261-b55f-8aa84bf5f63f','callback claimed','01a2144b-df10-70c5-acc6-59ea8ce70d4d','null','980c23c5e57244ce8f0f8068e446e2e448af81491ed90b29b51fcb0804690413','35b9d5ddafcc326069fed910d9093edaa94d996f21638c8d89b0cf29ee032c89');
INSERT INTO "audit" VALUES(31,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-defe-7261-b55f-8aa84bf5f63f','callback attempt','01a2144b-df10-70c5-acc6-59ea8ce70d4d','{"reached":true}','35b9d5ddafcc326069fed910d9093edaa94d996f21638c8d89b0cf29ee032c89','11a9c5c337a5723655451a5cf06d83d36426aee1da12b9e8af98016316ad1b68');
INSERT INTO "audit" VALUES(32,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-defe-7261-b55f-8aa84bf5f63f','visit brought forward','01a2144b-deff-7226-8472-db6e9e50ce54','{"latest":"2027-03-05"}','11a9c5c337a5723655451a5cf06d83d36426aee1da12b9e8af98016316ad1b68','52a01d007dc21dc9de96140f800f0a6bb2a2effda814c017087e2c739b94fb89');
INSERT INTO "audit" VALUES(33,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-defe-7261-b55f-8aa84bf5f63f','callback settled','01a2144b-df10-70c5-acc6-59ea8ce70d4d','{"outcome":"same-day"}','52a01d007dc21dc9de96140f800f0a6bb2a2effda814c017087e2c739b94fb89','c46eb8dae6fda48c28dff9ed3248d3cfe01c8107d519901675ccc4e7ebfb36e2');
INSERT INTO "audit" VALUES(34,'2027-03-05T10:00:00.000000Z','surgeon:01a2144b-defe-7261-b55f-8aa95984533a','protocol signed','reviews','{"fingerprint":"8409d8bc694c76d2"}','c46eb8dae6fda48c28dff9ed3248d3cfe01c8107d519901675ccc4e7ebfb36e2','42a2a5e4933caa273793ccd33a2f183445b00213aed0656e7cba3000e1a3d44e');
CREATE TABLE callback_steps (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks, at TEXT NOT NULL, who TEXT NOT NULL,
            step TEXT NOT NULL, detail TEXT NOT NULL
        ) STRICT;
INSERT INTO "callback_steps" VALUES('01a2144b-df0c-70db-97c7-e928fe8c78ea','01a2144b-df0c-70db-97c7-e927dfa91635','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a2144b-df0c-70db-97c7-e92beea4fc59','01a2144b-df0c-70db-97c7-e92a16af5ba7','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"posture-missed","words":"Only 3 of 12 hours of posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a2144b-df0c-70db-97c7-e92e444e2228','01a2144b-df0c-70db-97c7-e92df091ee85','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a2144b-df0c-70db-97c7-e93033f0b46b','01a2144b-df0c-70db-97c7-e92df091ee85','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-04."}');
INSERT INTO "callback_steps" VALUES('01a2144b-df10-70c5-acc6-59eb689c93a7','01a2144b-df10-70c5-acc6-59ea8ce70d4d','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"infection-suspected","words":"Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five."}');
INSERT INTO "callback_steps" VALUES('01a2144b-df11-7602-9eab-e14025626482','01a2144b-df11-7602-9eab-e13f8cadfcde','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"severe-pain","words":"Severe pain (8 of 10): pressure and infection must be ruled out."}');
INSERT INTO "callback_steps" VALUES('01a2144b-df11-7602-9eab-e143ed514088','01a2144b-df11-7602-9eab-e14224786cc0','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"curtain","words":"A curtain or shadow that does not move with the bubble: new detachment until shown otherwise."}');
INSERT INTO "callback_steps" VALUES('01a2144b-df11-7602-9eab-e145c3e22271','01a2144b-df11-7602-9eab-e13f8cadfcde','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pain","words":"Pain of 8 of 10, beyond what simple painkillers usually hold."}');
INSERT INTO "callback_steps" VALUES('01a2144b-df11-7602-9eab-e147ca76e7c8','01a2144b-df11-7602-9eab-e14224786cc0','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"vision-worse","words":"The patient says that the vision fell."}');
INSERT INTO "callback_steps" VALUES('01a2144b-df16-756a-850c-a7cac8371e8d','01a2144b-df11-7602-9eab-e13f8cadfcde','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"now","rule":"pressure-severe","words":"Pressure 41 mmHg, at or above 40."}');
INSERT INTO "callback_steps" VALUES('01a2144b-df16-756a-850c-a7ccccb1b3c0','01a2144b-df11-7602-9eab-e13f8cadfcde','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pressure-spike","words":"Pressure 41 mmHg, at or above 30."}');
INSERT INTO "callback_steps" VALUES('01a2144b-df16-756a-850c-a7ce51593aed','01a2144b-df11-7602-9eab-e13f8cadfcde','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-raised","words":"Pressure 41 mmHg, at or above 24."}');
INSERT INTO "callback_steps" VALUES('01a2144b-df16-756a-850c-a7d0adfe8b1e','01a2144b-df11-7602-9eab-e13f8cadfcde','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rise","words":"Pressure 41 mmHg, 26 above this eye’s own 15."}');
INSERT INTO "callback_steps" VALUES('01a2144b-df1a-778d-8418-3ca1ba7bda94','01a2144b-df1a-778d-8418-3ca0d86cd500','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a2144b-df1a-778d-8418-3ca4c3a381b7','01a2144b-df1a-778d-8418-3ca34d4a90dd','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a2144b-df1a-778d-8418-3ca6d316b965','01a2144b-df1a-778d-8418-3ca34d4a90dd','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a2144b-df1c-755e-aa34-39099b97a780','01a2144b-df10-70c5-acc6-59ea8ce70d4d','2027-03-05T10:00:00.000000Z','nurse:01a2144b-defe-7261-b55f-8aa84bf5f63f','claimed','{"by":"Nora Nurse"}');
INSERT INTO "callback_steps" VALUES('01a2144b-df1d-76ff-ad0c-4053bd1e1f44','01a2144b-df10-70c5-acc6-59ea8ce70d4d','2027-03-05T10:00:00.000000Z','nurse:01a2144b-defe-7261-b55f-8aa84bf5f63f','reached','{"by":"Nora Nurse","reached":true,"words":"comes at once"}');
INSERT INTO "callback_steps" VALUES('01a2144b-df1e-77eb-a314-9be3f67aee7e','01a2144b-df10-70c5-acc6-59ea8ce70d4d','2027-03-05T10:00:00.000000Z','nurse:01a2144b-defe-7261-b55f-8aa84bf5f63f','settled','{"by":"Nora Nurse","outcome":"same-day","words":"comes at two"}');
CREATE TABLE callbacks (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, worry TEXT NOT NULL,
            how_soon TEXT NOT NULL CHECK (how_soon IN ('now', 'today', 'this-week')),
            opened_at TEXT NOT NULL, due_at TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('waiting', 'claimed', 'settled')),
            claimed_by TEXT REFERENCES staff, claimed_at TEXT, settled_at TEXT, outcome TEXT,
            level INTEGER NOT NULL DEFAULT 0
        ) STRICT;
INSERT INTO "callbacks" VALUES('01a2144b-df0c-70db-97c7-e927dfa91635','01a2144b-deff-7226-8472-db6e9e50ce54','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2144b-df0c-70db-97c7-e92a16af5ba7','01a2144b-deff-7226-8472-db6e9e50ce54','posture','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2144b-df0c-70db-97c7-e92df091ee85','01a2144b-deff-7226-8472-db6e9e50ce54','silence','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2144b-df10-70c5-acc6-59ea8ce70d4d','01a2144b-deff-7226-8472-db6e9e50ce54','infection','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','settled','01a2144b-defe-7261-b55f-8aa84bf5f63f','2027-03-05T10:00:00.000000Z','2027-03-05T10:00:00.000000Z','same-day',0);
INSERT INTO "callbacks" VALUES('01a2144b-df11-7602-9eab-e13f8cadfcde','01a2144b-deff-7226-8472-db6e9e50ce54','pressure','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2144b-df11-7602-9eab-e14224786cc0','01a2144b-deff-7226-8472-db6e9e50ce54','retina','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2144b-df1a-778d-8418-3ca0d86cd500','01a2144b-df01-7152-b9ea-241d71b8e550','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2144b-df1a-778d-8418-3ca34d4a90dd','01a2144b-df01-7152-b9ea-241d71b8e550','silence','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
CREATE TABLE devices (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, token_hash TEXT NOT NULL UNIQUE,
            used_by TEXT NOT NULL, enrolled_at TEXT NOT NULL, heard_at TEXT NOT NULL, revoked_at TEXT, revoked_by TEXT
        ) STRICT;
INSERT INTO "devices" VALUES('01a2144b-df02-74d6-9e46-75e31031ea13','01a2144b-deff-7226-8472-db6d8b9a9f11','db378f8241662b20d053377e729cce26c40557b40d5f12cd4fa92858fda80b2f','patient','2027-03-02T20:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,NULL);
CREATE TABLE enrolments (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, code_hash TEXT NOT NULL UNIQUE,
            created_by TEXT NOT NULL, created_at TEXT NOT NULL, expires_at TEXT NOT NULL,
            used_at TEXT, wrong_tries INTEGER NOT NULL DEFAULT 0
        ) STRICT;
INSERT INTO "enrolments" VALUES('01a2144b-df00-76a5-ac04-c5645890472f','01a2144b-deff-7226-8472-db6d8b9a9f11','80f2fb28f561e93d25e0c76919a6225c6849746925588963d534c4c98bcb4c48','nurse:01a2144b-defe-7261-b55f-8aa84bf5f63f','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z','2027-03-02T20:00:00.000000Z',0);
INSERT INTO "enrolments" VALUES('01a2144b-df01-7152-b9ea-2421ab5393f8','01a2144b-df01-7152-b9ea-241caf3c9ebc','bda26c8844add362cec0e463f8aca8e484c54bd52e0186653177114449d9a1f9','nurse:01a2144b-defe-7261-b55f-8aa84bf5f63f','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z',NULL,0);
CREATE TABLE events (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, kind TEXT NOT NULL, at TEXT NOT NULL,
            body TEXT NOT NULL, author TEXT NOT NULL, device_id TEXT REFERENCES devices, sequence INTEGER,
            offset_minutes INTEGER, received_at TEXT NOT NULL, corrects TEXT REFERENCES events
        ) STRICT;
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000001','01a2144b-deff-7226-8472-db6e9e50ce54','posture','2027-03-05T09:00:00.000000Z','{"from":"2027-03-03T08:00:00Z","position":"face-down","to":"2027-03-03T11:00:00Z"}','patient:01a2144b-df02-74d6-9e46-75e31031ea13','01a2144b-df02-74d6-9e46-75e31031ea13',1,60,'2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000002','01a2144b-deff-7226-8472-db6e9e50ce54','symptoms','2027-03-05T09:00:00.000000Z','{"curtain":true,"pain":8,"vision":"worse","words":""}','patient:01a2144b-df02-74d6-9e46-75e31031ea13','01a2144b-df02-74d6-9e46-75e31031ea13',2,60,'2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a2144b-df12-7648-aa32-d3ca7a03dd6b','01a2144b-deff-7226-8472-db6e9e50ce54','measures','2027-03-05T10:00:00.000000Z','{"acuity":"6/60","bubble_percent":85.0,"eye":"right","findings":[],"instrument":"applanation","iop_mmhg":41.0,"notes":""}','nurse:01a2144b-defe-7261-b55f-8aa84bf5f63f',NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a2144b-df12-7648-aa32-d3cb5f68a12e','01a2144b-deff-7226-8472-db6e9e50ce54','seen','2027-03-05T10:00:00.000000Z','{"visit":"day 1"}','nurse:01a2144b-defe-7261-b55f-8aa84bf5f63f',NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a2144b-df17-766f-a30c-d5486ff5233c','01a2144b-df01-7152-b9ea-241d71b8e550','measures','2027-03-05T10:00:00.000000Z','{"acuity":"HM","eye":"right","findings":[],"iop_mmhg":14.0,"notes":""}','nurse:01a2144b-defe-7261-b55f-8aa84bf5f63f',NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a2144b-df1d-76ff-ad0c-4054426ccf87','01a2144b-deff-7226-8472-db6e9e50ce54','heard','2027-03-05T10:00:00.000000Z','{"words":"comes at once"}','nurse:01a2144b-defe-7261-b55f-8aa84bf5f63f',NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
CREATE TABLE job_slots (job TEXT NOT NULL, slot TEXT NOT NULL, taken_at TEXT NOT NULL, PRIMARY KEY (job, slot)) STRICT;
CREATE TABLE looks (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, at TEXT NOT NULL, who TEXT NOT NULL
        ) STRICT;
CREATE TABLE operation_records (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, eye TEXT NOT NULL,
            operated_at TEXT NOT NULL, agent TEXT NOT NULL, surgeon TEXT NOT NULL, body TEXT NOT NULL,
            recorded_by TEXT NOT NULL, recorded_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "operation_records" VALUES('01a2144b-df00-76a5-ac04-c56143b99c46','01a2144b-deff-7226-8472-db6e9e50ce54','right','2027-03-02T14:00:00.000000Z','c2f6','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":95.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":16.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00"}','nurse:01a2144b-defe-7261-b55f-8aa84bf5f63f','2027-03-02T19:00:00.000000Z');
INSERT INTO "operation_records" VALUES('01a2144b-df01-7152-b9ea-241e9bd85df7','01a2144b-df01-7152-b9ea-241d71b8e550','right','2027-03-02T14:00:00.000000Z','silicone-oil','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":90.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":0.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00"}','nurse:01a2144b-defe-7261-b55f-8aa84bf5f63f','2027-03-02T19:00:00.000000Z');
CREATE TABLE operations (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, created_at TEXT NOT NULL, ended_at TEXT
        ) STRICT;
INSERT INTO "operations" VALUES('01a2144b-deff-7226-8472-db6e9e50ce54','01a2144b-deff-7226-8472-db6d8b9a9f11','2027-03-02T19:00:00.000000Z',NULL);
INSERT INTO "operations" VALUES('01a2144b-df01-7152-b9ea-241d71b8e550','01a2144b-df01-7152-b9ea-241caf3c9ebc','2027-03-02T19:00:00.000000Z',NULL);
CREATE TABLE patients (
            id TEXT PRIMARY KEY, number TEXT NOT NULL UNIQUE, name TEXT NOT NULL, born_on TEXT NOT NULL,
            phone TEXT NOT NULL, language TEXT NOT NULL, created_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "patients" VALUES('01a2144b-deff-7226-8472-db6d8b9a9f11','S-1','Pia Person','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z');
INSERT INTO "patients" VALUES('01a2144b-df01-7152-b9ea-241caf3c9ebc','S-2','Olaf Other','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z');
CREATE TABLE protocol_texts (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, text TEXT NOT NULL, fingerprint TEXT NOT NULL,
            saved_by TEXT NOT NULL, saved_at TEXT NOT NULL
        ) STRICT;
CREATE TABLE refused_events (
            id TEXT NOT NULL, operation_id TEXT, device_id TEXT, text TEXT NOT NULL, reason TEXT NOT NULL,
            received_at TEXT NOT NULL, UNIQUE (id, device_id, text)
        ) STRICT;
INSERT INTO "refused_events" VALUES('0195e5a0-0000-7000-8000-000000000003','01a2144b-deff-7226-8472-db6e9e50ce54','01a2144b-df02-74d6-9e46-75e31031ea13','{"id": "0195e5a0-0000-7000-8000-000000000003", "operation": "01a2144b-deff-7226-8472-db6e9e50ce54", "kind": "symptoms", "at": "2027-03-05T09:00:00Z", "offset_minutes": 60, "sequence": 3, "by": "patient", "body": {"pain": 99}}','pain: Input should be less than or equal to 10','2027-03-05T10:00:00.000000Z');
CREATE TABLE settings (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
CREATE TABLE signatures (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, fingerprint TEXT NOT NULL, signed_by TEXT NOT NULL REFERENCES staff,
            signed_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "signatures" VALUES('01a2144b-df20-76de-a8a1-cf057d6c210d','reviews','8409d8bc694c76d2','01a2144b-defe-7261-b55f-8aa95984533a','2027-03-05T10:00:00.000000Z');
CREATE TABLE staff (
            id TEXT PRIMARY KEY, name TEXT NOT NULL, role TEXT NOT NULL CHECK (role IN ('nurse', 'surgeon')),
            email TEXT NOT NULL UNIQUE, password_hash TEXT NOT NULL, created_at TEXT NOT NULL, left_at TEXT
        ) STRICT;
INSERT INTO "staff" VALUES('01a2144b-defe-7261-b55f-8aa84bf5f63f','Nora Nurse','nurse','nurse@test.invalid','$argon2id$v=19$m=8,t=1,p=1$fRR5hfmueHYw+Si65dqwQA$HgjOG/aP9thGgoaZjuQAdZAjDHAa3XJl1VXOdaEeS7A','2027-03-02T14:00:00.000000Z',NULL);
INSERT INTO "staff" VALUES('01a2144b-defe-7261-b55f-8aa95984533a','Sol Surgeon','surgeon','surgeon@test.invalid','$argon2id$v=19$m=8,t=1,p=1$H6Wi7aARRQ3RuvYxgg9jJw$mJIpW1KuWQKCPctRMguc6laXTK3okPwUAV3XJvX2zk8','2027-03-02T14:00:00.000000Z',NULL);
CREATE TABLE tries (what TEXT NOT NULL, key TEXT NOT NULL, at TEXT NOT NULL) STRICT;
CREATE TABLE visits (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, name TEXT NOT NULL,
            target TEXT NOT NULL, earliest TEXT NOT NULL, latest TEXT NOT NULL, reason TEXT NOT NULL,
            recorded_by TEXT NOT NULL, recorded_at TEXT NOT NULL, replaces TEXT REFERENCES visits
        ) STRICT;
INSERT INTO "visits" VALUES('01a2144b-df00-76a5-ac04-c562951930ff','01a2144b-deff-7226-8472-db6e9e50ce54','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a2144b-defe-7261-b55f-8aa84bf5f63f','2027-03-02T19:00:00.000000Z',NULL);
INSERT INTO "visits" VALUES('01a2144b-df00-76a5-ac04-c5637bfb10ac','01a2144b-deff-7226-8472-db6e9e50ce54','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a2144b-defe-7261-b55f-8aa84bf5f63f','2027-03-02T19:00:00.000000Z',NULL);
INSERT INTO "visits" VALUES('01a2144b-df01-7152-b9ea-241ff24ee24d','01a2144b-df01-7152-b9ea-241d71b8e550','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a2144b-defe-7261-b55f-8aa84bf5f63f','2027-03-02T19:00:00.000000Z',NULL);
INSERT INTO "visits" VALUES('01a2144b-df01-7152-b9ea-2420c349bd4e','01a2144b-df01-7152-b9ea-241d71b8e550','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a2144b-defe-7261-b55f-8aa84bf5f63f','2027-03-02T19:00:00.000000Z',NULL);
INSERT INTO "visits" VALUES('01a2144b-df1b-722b-b69c-44c1f2742ad4','01a2144b-deff-7226-8472-db6e9e50ce54','week 1','2027-03-08','2027-03-05','2027-03-08','sooner','nurse:01a2144b-defe-7261-b55f-8aa84bf5f63f','2027-03-05T10:00:00.000000Z','01a2144b-df00-76a5-ac04-c5637bfb10ac');
INSERT INTO "visits" VALUES('01a2144b-df1e-77eb-a314-9be257b3b21d','01a2144b-deff-7226-8472-db6e9e50ce54','week 1','2027-03-05','2027-03-05','2027-03-05','after a callback (infection)','nurse:01a2144b-defe-7261-b55f-8aa84bf5f63f','2027-03-05T10:00:00.000000Z','01a2144b-df1b-722b-b69c-44c1f2742ad4');
CREATE TABLE warnings (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, callback_id TEXT NOT NULL REFERENCES callbacks,
            rule TEXT NOT NULL, worry TEXT NOT NULL, how_soon TEXT NOT NULL, raised_at TEXT NOT NULL, severity REAL NOT NULL,
            values_json TEXT NOT NULL, threshold TEXT NOT NULL, source TEXT NOT NULL, words TEXT NOT NULL,
            rulebook TEXT NOT NULL, recorded_at TEXT NOT NULL, UNIQUE (operation_id, rule, raised_at)
        ) STRICT;
INSERT INTO "warnings" VALUES('01a2144b-df0c-70db-97c7-e92905634d16','01a2144b-deff-7226-8472-db6e9e50ce54','01a2144b-df0c-70db-97c7-e927dfa91635','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-df0c-70db-97c7-e92c38ad4bbb','01a2144b-deff-7226-8472-db6e9e50ce54','01a2144b-df0c-70db-97c7-e92a16af5ba7','posture-missed','posture','today','2027-03-03T23:00:00.000000Z',0.75,'{"date":"2027-03-03","hours":3.0,"target_hours":12}','{"share":0.5}','CP','Only 3 of 12 hours of posturing on 2027-03-03.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-df0c-70db-97c7-e92f207b64b7','01a2144b-deff-7226-8472-db6e9e50ce54','01a2144b-df0c-70db-97c7-e92df091ee85','silent-while-posturing','silence','today','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-df0c-70db-97c7-e93170c2f502','01a2144b-deff-7226-8472-db6e9e50ce54','01a2144b-df0c-70db-97c7-e92df091ee85','no-posture-entry','silence','today','2027-03-04T23:00:00.000000Z',1.0,'{"date":"2027-03-04"}','{}','CP','Nothing logged for posturing on 2027-03-04.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-df10-70c5-acc6-59ec06d612fb','01a2144b-deff-7226-8472-db6e9e50ce54','01a2144b-df10-70c5-acc6-59ea8ce70d4d','infection-suspected','infection','now','2027-03-05T09:00:00.000000Z',30.0,'{"pain":8,"vision":"worse"}','{"count":2,"signs":["pain>=4","vision=worse","redness=worse","discharge"]}','BOSU','Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-df11-7602-9eab-e14181804134','01a2144b-deff-7226-8472-db6e9e50ce54','01a2144b-df11-7602-9eab-e13f8cadfcde','severe-pain','pressure','now','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=7"]}','VRS','Severe pain (8 of 10): pressure and infection must be ruled out.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-df11-7602-9eab-e1447892c6b4','01a2144b-deff-7226-8472-db6e9e50ce54','01a2144b-df11-7602-9eab-e14224786cc0','curtain','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"curtain":true,"pain":8}','{"count":1,"signs":["curtain"]}','Yor18','A curtain or shadow that does not move with the bubble: new detachment until shown otherwise.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-df11-7602-9eab-e146d27bb2a1','01a2144b-deff-7226-8472-db6e9e50ce54','01a2144b-df11-7602-9eab-e13f8cadfcde','pain','pressure','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=5"]}','VRS','Pain of 8 of 10, beyond what simple painkillers usually hold.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-df11-7602-9eab-e14806d76af8','01a2144b-deff-7226-8472-db6e9e50ce54','01a2144b-df11-7602-9eab-e14224786cc0','vision-worse','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','VRS','The patient says that the vision fell.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-df16-756a-850c-a7cb8adf60b3','01a2144b-deff-7226-8472-db6e9e50ce54','01a2144b-df11-7602-9eab-e13f8cadfcde','pressure-severe','pressure','now','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":40}','Bern12','Pressure 41 mmHg, at or above 40.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-df16-756a-850c-a7cd0f04c896','01a2144b-deff-7226-8472-db6e9e50ce54','01a2144b-df11-7602-9eab-e13f8cadfcde','pressure-spike','pressure','today','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":30}','Bern12','Pressure 41 mmHg, at or above 30.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-df16-756a-850c-a7cf7d550429','01a2144b-deff-7226-8472-db6e9e50ce54','01a2144b-df11-7602-9eab-e13f8cadfcde','pressure-raised','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":24}','NICE','Pressure 41 mmHg, at or above 24.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-df16-756a-850c-a7d18881beeb','01a2144b-deff-7226-8472-db6e9e50ce54','01a2144b-df11-7602-9eab-e13f8cadfcde','pressure-rise','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"baseline_mmhg":15,"instrument":"applanation","iop_mmhg":41.0,"pain":null,"risen_mmhg":26.0}','{"mmhg":24,"rise_mmhg":10}','NICE','Pressure 41 mmHg, 26 above this eye’s own 15.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-df1a-778d-8418-3ca2f84d2f05','01a2144b-df01-7152-b9ea-241d71b8e550','01a2144b-df1a-778d-8418-3ca0d86cd500','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-df1a-778d-8418-3ca51eb4b90a','01a2144b-df01-7152-b9ea-241d71b8e550','01a2144b-df1a-778d-8418-3ca34d4a90dd','no-posture-entry','silence','today','2027-03-03T23:00:00.000000Z',1.0,'{"date":"2027-03-03"}','{}','CP','Nothing logged for posturing on 2027-03-03.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-df1a-778d-8418-3ca74ef03fb8','01a2144b-df01-7152-b9ea-241d71b8e550','01a2144b-df1a-778d-8418-3ca34d4a90dd','silent-while-posturing','silence','today','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
CREATE UNIQUE INDEX "idx__sqlite_migrations_migration_set_name"
    ON "_sqlite_migrations" ("migration_set", "name");
CREATE INDEX devices_of_patient ON devices (patient_id);
CREATE INDEX tries_by_key ON tries (what, key, at);
CREATE INDEX operations_of_patient ON operations (patient_id);
CREATE INDEX records_of_operation ON operation_records (operation_id, recorded_at);
CREATE INDEX visits_of_operation ON visits (operation_id);
CREATE INDEX visits_by_date ON visits (target);
CREATE UNIQUE INDEX visits_replaced_once ON visits (replaces);
CREATE INDEX events_of_operation ON events (operation_id, at);
CREATE INDEX events_corrected ON events (corrects);
CREATE INDEX looks_of_operation ON looks (operation_id, at);
CREATE UNIQUE INDEX one_open_callback ON callbacks (operation_id, worry) WHERE state != 'settled';
CREATE INDEX callbacks_open ON callbacks (state, due_at);
CREATE INDEX steps_of_callback ON callback_steps (callback_id, at);
CREATE INDEX warnings_of_callback ON warnings (callback_id);
CREATE TRIGGER operation_records_keeps_update BEFORE UPDATE ON operation_records BEGIN SELECT RAISE(ABORT, 'operation_records is append-only: record a correction instead'); END;
CREATE TRIGGER operation_records_keeps_delete BEFORE DELETE ON operation_records BEGIN SELECT RAISE(ABORT, 'operation_records is append-only: record a correction instead'); END;
CREATE TRIGGER visits_keeps_update BEFORE UPDATE ON visits BEGIN SELECT RAISE(ABORT, 'visits is append-only: record a correction instead'); END;
CREATE TRIGGER visits_keeps_delete BEFORE DELETE ON visits BEGIN SELECT RAISE(ABORT, 'visits is append-only: record a correction instead'); END;
CREATE TRIGGER events_keeps_update BEFORE UPDATE ON events BEGIN SELECT RAISE(ABORT, 'events is append-only: record a correction instead'); END;
CREATE TRIGGER events_keeps_delete BEFORE DELETE ON events BEGIN SELECT RAISE(ABORT, 'events is append-only: record a correction instead'); END;
CREATE TRIGGER looks_keeps_update BEFORE UPDATE ON looks BEGIN SELECT RAISE(ABORT, 'looks is append-only: record a correction instead'); END;
CREATE TRIGGER looks_keeps_delete BEFORE DELETE ON looks BEGIN SELECT RAISE(ABORT, 'looks is append-only: record a correction instead'); END;
CREATE TRIGGER refused_events_keeps_update BEFORE UPDATE ON refused_events BEGIN SELECT RAISE(ABORT, 'refused_events is append-only: record a correction instead'); END;
CREATE TRIGGER refused_events_keeps_delete BEFORE DELETE ON refused_events BEGIN SELECT RAISE(ABORT, 'refused_events is append-only: record a correction instead'); END;
CREATE TRIGGER warnings_keeps_update BEFORE UPDATE ON warnings BEGIN SELECT RAISE(ABORT, 'warnings is append-only: record a correction instead'); END;
CREATE TRIGGER warnings_keeps_delete BEFORE DELETE ON warnings BEGIN SELECT RAISE(ABORT, 'warnings is append-only: record a correction instead'); END;
CREATE TRIGGER callback_steps_keeps_update BEFORE UPDATE ON callback_steps BEGIN SELECT RAISE(ABORT, 'callback_steps is append-only: record a correction instead'); END;
CREATE TRIGGER callback_steps_keeps_delete BEFORE DELETE ON callback_steps BEGIN SELECT RAISE(ABORT, 'callback_steps is append-only: record a correction instead'); END;
CREATE TRIGGER protocol_texts_keeps_update BEFORE UPDATE ON protocol_texts BEGIN SELECT RAISE(ABORT, 'protocol_texts is append-only: record a correction instead'); END;
CREATE TRIGGER protocol_texts_keeps_delete BEFORE DELETE ON protocol_texts BEGIN SELECT RAISE(ABORT, 'protocol_texts is append-only: record a correction instead'); END;
CREATE TRIGGER signatures_keeps_update BEFORE UPDATE ON signatures BEGIN SELECT RAISE(ABORT, 'signatures is append-only: record a correction instead'); END;
CREATE TRIGGER signatures_keeps_delete BEFORE DELETE ON signatures BEGIN SELECT RAISE(ABORT, 'signatures is append-only: record a correction instead'); END;
CREATE TRIGGER audit_keeps_update BEFORE UPDATE ON audit BEGIN SELECT RAISE(ABORT, 'audit is append-only: record a correction instead'); END;
CREATE TRIGGER audit_keeps_delete BEFORE DELETE ON audit BEGIN SELECT RAISE(ABORT, 'audit is append-only: record a correction instead'); END;
COMMIT;
