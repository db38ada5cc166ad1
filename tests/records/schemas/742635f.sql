BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'followup','m001_people','2026-11-25 20:00:58.286153+00:00');
INSERT INTO "_sqlite_migrations" VALUES(2,'followup','m002_eyes','2026-11-25 20:00:58.290548+00:00');
INSERT INTO "_sqlite_migrations" VALUES(3,'followup','m003_worries','2026-11-25 20:00:58.299108+00:00');
INSERT INTO "_sqlite_migrations" VALUES(4,'followup','m004_audit','2026-11-25 20:00:58.305399+00:00');
CREATE TABLE audit (
            number INTEGER PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, action TEXT NOT NULL, subject TEXT NOT NULL,
            detail TEXT NOT NULL, previous TEXT NOT NULL, hash TEXT NOT NULL
        ) STRICT;
INSERT INTO "audit" VALUES(1,'2027-03-02T14:00:00.000000Z','command line','staff added','01a2144c-0dc4-76af-b5e1-621048543f91','{"role":"nurse"}','0000000000000000000000000000000000000000000000000000000000000000','cab459c7a0129d80e147021f84c6cda26956ed4f87f20e3baa1939e975f86219');
INSERT INTO "audit" VALUES(2,'2027-03-02T14:00:00.000000Z','command line','staff added','01a2144c-0dc8-7054-b0f8-dd983ef3702a','{"role":"surgeon"}','cab459c7a0129d80e147021f84c6cda26956ed4f87f20e3baa1939e975f86219','a2b96d9ec9307c8360ca0b7cdc5fcf85984e2584470dff3ab53938b2d906b858');
INSERT INTO "audit" VALUES(3,'2027-03-02T19:00:00.000000Z','nurse:01a2144c-0dc4-76af-b5e1-621048543f91','enrolment code','01a2144c-0dcd-75a7-b8c6-409ca0f22260','null','a2b96d9ec9307c8360ca0b7cdc5fcf85984e2584470dff3ab53938b2d906b858','c9d250a3c08967906897b8bac7e7a41560c516dc53af1af36e46a6efa0d8d7bd');
INSERT INTO "audit" VALUES(4,'2027-03-02T19:00:00.000000Z','nurse:01a2144c-0dc4-76af-b5e1-621048543f91','discharge','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','{"agent":"c2f6","eye":"right"}','c9d250a3c08967906897b8bac7e7a41560c516dc53af1af36e46a6efa0d8d7bd','2077989e4f2905361b9ab9d186906ab02d4ab846c3a8809e5a88d1534f9bc4ac');
INSERT INTO "audit" VALUES(5,'2027-03-02T19:00:00.000000Z','nurse:01a2144c-0dc4-76af-b5e1-621048543f91','enrolment code','01a2144c-0dd0-77ff-a2f2-04407ab69a5e','null','2077989e4f2905361b9ab9d186906ab02d4ab846c3a8809e5a88d1534f9bc4ac','71543f45790b478ff863b660277e296c89f8bf51ccb712ac4b4f60b342ae2095');
INSERT INTO "audit" VALUES(6,'2027-03-02T19:00:00.000000Z','nurse:01a2144c-0dc4-76af-b5e1-621048543f91','discharge','01a2144c-0dd0-77ff-a2f2-0441c0ac10d7','{"agent":"silicone-oil","eye":"right"}','71543f45790b478ff863b660277e296c89f8bf51ccb712ac4b4f60b342ae2095','0c513aec266917a6a537d29b7e7355b122156afc80f37f5c10ad5f925cafe5a2');
INSERT INTO "audit" VALUES(7,'2027-03-02T20:00:00.000000Z','patient:01a2144c-0dd4-7706-b4db-26f2bc433a32','device enrolled','01a2144c-0dcd-75a7-b8c6-409ca0f22260','null','0c513aec266917a6a537d29b7e7355b122156afc80f37f5c10ad5f925cafe5a2','8382bb7c381cd26c3d40dee7b575a92b646e8cb315ba91fc65560500fbccc7a3');
INSERT INTO "audit" VALUES(8,'2027-03-05T10:00:00.000000Z','patient:01a2144c-0dd4-7706-b4db-26f2bc433a32','event posture','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','{"id":"0195e5a0-0000-7000-8000-000000000001"}','8382bb7c381cd26c3d40dee7b575a92b646e8cb315ba91fc65560500fbccc7a3','b1b427df06487ded68447a48019ff55463c010bc1ef4881426d60d8781e1b5ed');
INSERT INTO "audit" VALUES(9,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','{"how_soon":"today","rule":"missed-early-visit"}','b1b427df06487ded68447a48019ff55463c010bc1ef4881426d60d8781e1b5ed','eae6c2c83b42c5ef18c80dc659c1c44c874c7b6943992b434b4be2e289dbd724');
INSERT INTO "audit" VALUES(10,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','{"how_soon":"today","rule":"posture-missed"}','eae6c2c83b42c5ef18c80dc659c1c44c874c7b6943992b434b4be2e289dbd724','e6fcd795c62ef49a4dc8f6f12edf2ea058842590676fab95c7cecfab1d390285');
INSERT INTO "audit" VALUES(11,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','{"how_soon":"today","rule":"silent-while-posturing"}','e6fcd795c62ef49a4dc8f6f12edf2ea058842590676fab95c7cecfab1d390285','dd09a467c72f599a0816986ac2d4365c9acd4fb25b889cdabbd095594dc05a34');
INSERT INTO "audit" VALUES(12,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','{"how_soon":"today","rule":"no-posture-entry"}','dd09a467c72f599a0816986ac2d4365c9acd4fb25b889cdabbd095594dc05a34','efe9dbeacbab6d66c08a60d98c9e2fc3b4bc415445ba509c259c3389c90744c5');
INSERT INTO "audit" VALUES(13,'2027-03-05T10:00:00.000000Z','patient:01a2144c-0dd4-7706-b4db-26f2bc433a32','event symptoms','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','{"id":"0195e5a0-0000-7000-8000-000000000002"}','efe9dbeacbab6d66c08a60d98c9e2fc3b4bc415445ba509c259c3389c90744c5','868165e7e55c374b1f0b476d957e89bf3f2c1c145369a96948a35aaacd161a7f');
INSERT INTO "audit" VALUES(14,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','{"how_soon":"now","rule":"infection-suspected"}','868165e7e55c374b1f0b476d957e89bf3f2c1c145369a96948a35aaacd161a7f','26698b1294099a3ead7c123f2dea18f250431ede4d3a1301bd61c283600d16ec');
INSERT INTO "audit" VALUES(15,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','{"how_soon":"now","rule":"severe-pain"}','26698b1294099a3ead7c123f2dea18f250431ede4d3a1301bd61c283600d16ec','6574d8a64b329dc3a208f3db348161a30b3911281f105aa546b1ae1d6f801629');
INSERT INTO "audit" VALUES(16,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','{"how_soon":"today","rule":"curtain"}','6574d8a64b329dc3a208f3db348161a30b3911281f105aa546b1ae1d6f801629','5c56402e3db3a0c993ca50eb10df6f34cd860027375f005f843ef75c068863fe');
INSERT INTO "audit" VALUES(17,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','{"how_soon":"today","rule":"pain"}','5c56402e3db3a0c993ca50eb10df6f34cd860027375f005f843ef75c068863fe','5d8df0d0313b3c1dd163bae7960086ae0d848d2caf4798c466d0b0c2ba27341c');
INSERT INTO "audit" VALUES(18,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','{"how_soon":"today","rule":"vision-worse"}','5d8df0d0313b3c1dd163bae7960086ae0d848d2caf4798c466d0b0c2ba27341c','5851fdd2e5fa5eb623b8aa4af150a5058fedb0dc5dc9c26badb2097442ebf8bc');
INSERT INTO "audit" VALUES(19,'2027-03-05T10:00:00.000000Z','nurse:01a2144c-0dc4-76af-b5e1-621048543f91','event measures','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','{"id":"01a2144c-0e06-73b7-a2e4-3a9ce2307df5"}','5851fdd2e5fa5eb623b8aa4af150a5058fedb0dc5dc9c26badb2097442ebf8bc','0b6a668cdb76fd89abed6256970987c4d895cc6d30b3ecf44e93bb3be637eef7');
INSERT INTO "audit" VALUES(20,'2027-03-05T10:00:00.000000Z','nurse:01a2144c-0dc4-76af-b5e1-621048543f91','event seen','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','{"id":"01a2144c-0e06-73b7-a2e4-3a9d34a60e88"}','0b6a668cdb76fd89abed6256970987c4d895cc6d30b3ecf44e93bb3be637eef7','144ba0efa666c72d2bc7cb88dbb03978908d2f192a3fa69da1baa783e14e8075');
INSERT INTO "audit" VALUES(21,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','{"how_soon":"now","rule":"pressure-severe"}','144ba0efa666c72d2bc7cb88dbb03978908d2f192a3fa69da1baa783e14e8075','e66e677395c951d5b897f1d0b1378556013ee5c466cdd0a61f4868f638389e41');
INSERT INTO "audit" VALUES(22,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','{"how_soon":"today","rule":"pressure-spike"}','e66e677395c951d5b897f1d0b1378556013ee5c466cdd0a61f4868f638389e41','e8dc657f1f4689cd97581c3e85c3f2e056b86522cbf9c56eb655e2d3efe4b947');
INSERT INTO "audit" VALUES(23,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','{"how_soon":"this-week","rule":"pressure-raised"}','e8dc657f1f4689cd97581c3e85c3f2e056b86522cbf9c56eb655e2d3efe4b947','aa092e7b8c07051132f1713a81dfe909b70e0cbcfc04cbfd1d01e8b53a0d3a9f');
INSERT INTO "audit" VALUES(24,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','{"how_soon":"this-week","rule":"pressure-rise"}','aa092e7b8c07051132f1713a81dfe909b70e0cbcfc04cbfd1d01e8b53a0d3a9f','dc3bb044a56e520d035715844c4773f3d07dd01a285a99fe5e366004e42c4fec');
INSERT INTO "audit" VALUES(25,'2027-03-05T10:00:00.000000Z','nurse:01a2144c-0dc4-76af-b5e1-621048543f91','event measures','01a2144c-0dd0-77ff-a2f2-0441c0ac10d7','{"id":"01a2144c-0e10-708b-8690-b0bb40ccc6ad"}','dc3bb044a56e520d035715844c4773f3d07dd01a285a99fe5e366004e42c4fec','4345cfd096e0dbfd0958b799cad9d2f06f5d1c9d310eb74306208dfbd02dab66');
INSERT INTO "audit" VALUES(26,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144c-0dd0-77ff-a2f2-0441c0ac10d7','{"how_soon":"today","rule":"missed-early-visit"}','4345cfd096e0dbfd0958b799cad9d2f06f5d1c9d310eb74306208dfbd02dab66','7eda4d92853287b16f7b1f46abca8b976c43de85c0c4206fac3551574c7d0f69');
INSERT INTO "audit" VALUES(27,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144c-0dd0-77ff-a2f2-0441c0ac10d7','{"how_soon":"today","rule":"no-posture-entry"}','7eda4d92853287b16f7b1f46abca8b976c43de85c0c4206fac3551574c7d0f69','5fe5ae66a233014552f693c6bb570c85a70416ed354ed30abf1bbd4cffd44822');
INSERT INTO "audit" VALUES(28,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144c-0dd0-77ff-a2f2-0441c0ac10d7','{"how_soon":"today","rule":"silent-while-posturing"}','5fe5ae66a233014552f693c6bb570c85a70416ed354ed30abf1bbd4cffd44822','aa6cd80106704e5655601d747b81877f18e109f7ac8be7ba9fe93dce0ca97b43');
INSERT INTO "audit" VALUES(29,'2027-03-05T10:00:00.000000Z','nurse:01a2144c-0dc4-76af-b5e1-621048543f91','visit brought forward','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','{"latest":"2027-03-08"}','aa6cd80106704e5655601d747b81877f18e109f7ac8be7ba9fe93dce0ca97b43','71a410645ad7436e904a050734d91cb91b556e08cff84f3eae68743828716510');
INSERT INTO "audit" VALUES(30,'2027-03-05T10:00:00.000000Z','nurse:01a2144c-0dc4-76af-b5e1-621048543f91','callback claimed','01a2144c-0dfc-7041-a16a-a5aaa3923c57','null','71a410645ad7436e904a050734d91cb91b556e08cff84f3eae68743828716510','b71e63b759ba153b72ef266e84bc4e2ec2b1f553de6a0d36a47d66321e5423ff');
INSERT INTO "audit" VALUES(31,'2027-03-05T10:00:00.000000Z','nurse:01a2144c-0dc4-76af-b5e1-621048543f91','callback attempt','01a2144c-0dfc-7041-a16a-a5aaa3923c57','{"reached":true}','b71e63b759ba153b72ef266e84bc4e2ec2b1f553de6a0d36a47d66321e5423ff','1d34b16bce5ff2cfaaba79f8af23417fdbc93ac5e8901d801d696020ad9a5dce');
INSERT INTO "audit" VALUES(32,'2027-03-05T10:00:00.000000Z','nurse:01a2144c-0dc4-76af-b5e1-621048543f91','visit brought forward','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','{"latest":"2027-03-05"}','1d34b16bce5ff2cfaaba79f8af23417fdbc93ac5e8901d801d696020ad9a5dce','37d2d483b995b932caefcb4e39855892b8d40e2a36cbcf3ee7e3de2f64a67574');
INSERT INTO "audit" VALUES(33,'2027-03-05T10:00:00.000000Z','nurse:01a2144c-0dc4-76af-b5e1-621048543f91','callback settled','01a2144c-0dfc-7041-a16a-a5aaa3923c57','{"outcome":"same-day"}','37d2d483b995b932caefcb4e39855892b8d40e2a36cbcf3ee7e3de2f64a67574','1f4e425b2c66f216c874534187c952e84024f55ae83f05191ba6a0ae0481b935');
INSERT INTO "audit" VALUES(34,'2027-03-05T10:00:00.000000Z','surgeon:01a2144c-0dc8-7054-b0f8-dd983ef3702a','protocol signed','reviews','{"fingerprint":"8409d8bc694c76d2"}','1f4e425b2c66f216c874534187c952e84024f55ae83f05191ba6a0ae0481b935','1cbfdec49cfe22f0c81775783b9566e06ab748cadd61ac564837f25dfe6a4da0');
CREATE TABLE callback_steps (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks, at TEXT NOT NULL, who TEXT NOT NULL,
            step TEXT NOT NULL, detail TEXT NOT NULL
        ) STRICT;
INSERT INTO "callback_steps" VALUES('01a2144c-0def-77a2-8b54-25606195c562','01a2144c-0dee-75e0-82f5-0c95969992a8','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a2144c-0def-77a2-8b54-2563cf4a9d7f','01a2144c-0def-77a2-8b54-25621b75132d','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"posture-missed","words":"Only 3 of 12 hours of posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a2144c-0def-77a2-8b54-2566cb8d441d','01a2144c-0def-77a2-8b54-2565a9b2a179','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a2144c-0def-77a2-8b54-2568a4add512','01a2144c-0def-77a2-8b54-2565a9b2a179','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-04."}');
INSERT INTO "callback_steps" VALUES('01a2144c-0dfc-7041-a16a-a5abe78b3a20','01a2144c-0dfc-7041-a16a-a5aaa3923c57','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"infection-suspected","words":"Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five."}');
INSERT INTO "callback_steps" VALUES('01a2144c-0dfc-7041-a16a-a5aec7934c15','01a2144c-0dfc-7041-a16a-a5ad4982e943','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"severe-pain","words":"Severe pain (8 of 10): pressure and infection must be ruled out."}');
INSERT INTO "callback_steps" VALUES('01a2144c-0dfc-7041-a16a-a5b1329c7f93','01a2144c-0dfc-7041-a16a-a5b0a9a02e8a','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"curtain","words":"A curtain or shadow that does not move with the bubble: new detachment until shown otherwise."}');
INSERT INTO "callback_steps" VALUES('01a2144c-0dfd-7386-9fb9-cf71b5de84ce','01a2144c-0dfc-7041-a16a-a5ad4982e943','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pain","words":"Pain of 8 of 10, beyond what simple painkillers usually hold."}');
INSERT INTO "callback_steps" VALUES('01a2144c-0dfd-7386-9fb9-cf73f8a584a6','01a2144c-0dfc-7041-a16a-a5b0a9a02e8a','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"vision-worse","words":"The patient says that the vision fell."}');
INSERT INTO "callback_steps" VALUES('01a2144c-0e0e-7622-a36c-30a772dde244','01a2144c-0dfc-7041-a16a-a5ad4982e943','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"now","rule":"pressure-severe","words":"Pressure 41 mmHg, at or above 40."}');
INSERT INTO "callback_steps" VALUES('01a2144c-0e0e-7622-a36c-30a9d69b5bc7','01a2144c-0dfc-7041-a16a-a5ad4982e943','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pressure-spike","words":"Pressure 41 mmHg, at or above 30."}');
INSERT INTO "callback_steps" VALUES('01a2144c-0e0f-7142-9900-c7de597527cc','01a2144c-0dfc-7041-a16a-a5ad4982e943','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-raised","words":"Pressure 41 mmHg, at or above 24."}');
INSERT INTO "callback_steps" VALUES('01a2144c-0e0f-7142-9900-c7e0c56685ff','01a2144c-0dfc-7041-a16a-a5ad4982e943','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rise","words":"Pressure 41 mmHg, 26 above this eye’s own 15."}');
INSERT INTO "callback_steps" VALUES('01a2144c-0e13-7175-92c3-f9815b9f3f6a','01a2144c-0e13-7175-92c3-f9803d22920b','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a2144c-0e14-701c-a428-dc642e451a1e','01a2144c-0e14-701c-a428-dc63d5968235','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a2144c-0e14-701c-a428-dc66f714b413','01a2144c-0e14-701c-a428-dc63d5968235','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a2144c-0e21-768a-870c-e3039ef69f30','01a2144c-0dfc-7041-a16a-a5aaa3923c57','2027-03-05T10:00:00.000000Z','nurse:01a2144c-0dc4-76af-b5e1-621048543f91','claimed','{"by":"Nora Nurse"}');
INSERT INTO "callback_steps" VALUES('01a2144c-0e28-7152-bdbd-42128e954d66','01a2144c-0dfc-7041-a16a-a5aaa3923c57','2027-03-05T10:00:00.000000Z','nurse:01a2144c-0dc4-76af-b5e1-621048543f91','reached','{"by":"Nora Nurse","reached":true,"words":"comes at once"}');
INSERT INTO "callback_steps" VALUES('01a2144c-0e2d-732f-a271-ba5cc1862007','01a2144c-0dfc-7041-a16a-a5aaa3923c57','2027-03-05T10:00:00.000000Z','nurse:01a2144c-0dc4-76af-b5e1-621048543f91','settled','{"by":"Nora Nurse","outcome":"same-day","words":"comes at two"}');
CREATE TABLE callbacks (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, worry TEXT NOT NULL,
            how_soon TEXT NOT NULL CHECK (how_soon IN ('now', 'today', 'this-week')),
            opened_at TEXT NOT NULL, due_at TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('waiting', 'claimed', 'settled')),
            claimed_by TEXT REFERENCES staff, claimed_at TEXT, settled_at TEXT, outcome TEXT,
            level INTEGER NOT NULL DEFAULT 0
        ) STRICT;
INSERT INTO "callbacks" VALUES('01a2144c-0dee-75e0-82f5-0c95969992a8','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2144c-0def-77a2-8b54-25621b75132d','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','posture','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2144c-0def-77a2-8b54-2565a9b2a179','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','silence','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2144c-0dfc-7041-a16a-a5aaa3923c57','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','infection','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','settled','01a2144c-0dc4-76af-b5e1-621048543f91','2027-03-05T10:00:00.000000Z','2027-03-05T10:00:00.000000Z','same-day',0);
INSERT INTO "callbacks" VALUES('01a2144c-0dfc-7041-a16a-a5ad4982e943','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','pressure','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2144c-0dfc-7041-a16a-a5b0a9a02e8a','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','retina','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2144c-0e13-7175-92c3-f9803d22920b','01a2144c-0dd0-77ff-a2f2-0441c0ac10d7','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2144c-0e14-701c-a428-dc63d5968235','01a2144c-0dd0-77ff-a2f2-0441c0ac10d7','silence','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
CREATE TABLE devices (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, token_hash TEXT NOT NULL UNIQUE,
            used_by TEXT NOT NULL, enrolled_at TEXT NOT NULL, heard_at TEXT NOT NULL, revoked_at TEXT, revoked_by TEXT
        ) STRICT;
INSERT INTO "devices" VALUES('01a2144c-0dd4-7706-b4db-26f2bc433a32','01a2144c-0dcd-75a7-b8c6-409ca0f22260','0e7cdaceb5087331385d6da73567aa50cebf466a030e1249a148d6bdc9e93c89','patient','2027-03-02T20:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,NULL);
CREATE TABLE enrolments (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, code_hash TEXT NOT NULL UNIQUE,
            created_by TEXT NOT NULL, created_at TEXT NOT NULL, expires_at TEXT NOT NULL,
            used_at TEXT, wrong_tries INTEGER NOT NULL DEFAULT 0
        ) STRICT;
INSERT INTO "enrolments" VALUES('01a2144c-0dcd-75a7-b8c6-40a1555055d1','01a2144c-0dcd-75a7-b8c6-409ca0f22260','c12d92f1c87ee7cc8f7c5ca8c0f07ee27c663b442fbcf2ce04b43ddf20f8986c','nurse:01a2144c-0dc4-76af-b5e1-621048543f91','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z','2027-03-02T20:00:00.000000Z',0);
INSERT INTO "enrolments" VALUES('01a2144c-0dd1-77b2-94cb-5171af612742','01a2144c-0dd0-77ff-a2f2-04407ab69a5e','0d78fd906d7209f5affad722de12c63310fd1383be23adc6fb46ea693be973b0','nurse:01a2144c-0dc4-76af-b5e1-621048543f91','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z',NULL,0);
CREATE TABLE events (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, kind TEXT NOT NULL, at TEXT NOT NULL,
            body TEXT NOT NULL, author TEXT NOT NULL, device_id TEXT REFERENCES devices, sequence INTEGER,
            offset_minutes INTEGER, received_at TEXT NOT NULL, corrects TEXT REFERENCES events
        ) STRICT;
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000001','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','posture','2027-03-05T09:00:00.000000Z','{"from":"2027-03-03T08:00:00Z","position":"face-down","to":"2027-03-03T11:00:00Z"}','patient:01a2144c-0dd4-7706-b4db-26f2bc433a32','01a2144c-0dd4-7706-b4db-26f2bc433a32',1,60,'2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000002','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','symptoms','2027-03-05T09:00:00.000000Z','{"curtain":true,"pain":8,"vision":"worse","words":""}','patient:01a2144c-0dd4-7706-b4db-26f2bc433a32','01a2144c-0dd4-7706-b4db-26f2bc433a32',2,60,'2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a2144c-0e06-73b7-a2e4-3a9ce2307df5','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','measures','2027-03-05T10:00:00.000000Z','{"acuity":"6/60","bubble_percent":85.0,"eye":"right","findings":[],"instrument":"applanation","iop_mmhg":41.0,"notes":""}','nurse:01a2144c-0dc4-76af-b5e1-621048543f91',NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a2144c-0e06-73b7-a2e4-3a9d34a60e88','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','seen','2027-03-05T10:00:00.000000Z','{"visit":"day 1"}','nurse:01a2144c-0dc4-76af-b5e1-621048543f91',NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a2144c-0e10-708b-8690-b0bb40ccc6ad','01a2144c-0dd0-77ff-a2f2-0441c0ac10d7','measures','2027-03-05T10:00:00.000000Z','{"acuity":"HM","eye":"right","findings":[],"iop_mmhg":14.0,"notes":""}','nurse:01a2144c-0dc4-76af-b5e1-621048543f91',NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a2144c-0e28-7152-bdbd-42134528ead4','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','heard','2027-03-05T10:00:00.000000Z','{"words":"comes at once"}','nurse:01a2144c-0dc4-76af-b5e1-621048543f91',NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
CREATE TABLE job_slots (job TEXT NOT NULL, slot TEXT NOT NULL, taken_at TEXT NOT NULL, PRIMARY KEY (job, slot)) STRICT;
CREATE TABLE operation_records (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, eye TEXT NOT NULL,
            operated_at TEXT NOT NULL, agent TEXT NOT NULL, surgeon TEXT NOT NULL, body TEXT NOT NULL,
            recorded_by TEXT NOT NULL, recorded_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "operation_records" VALUES('01a2144c-0dcd-75a7-b8c6-409e3428851e','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','right','2027-03-02T14:00:00.000000Z','c2f6','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":95.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":16.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00"}','nurse:01a2144c-0dc4-76af-b5e1-621048543f91','2027-03-02T19:00:00.000000Z');
INSERT INTO "operation_records" VALUES('01a2144c-0dd0-77ff-a2f2-04428d7a0557','01a2144c-0dd0-77ff-a2f2-0441c0ac10d7','right','2027-03-02T14:00:00.000000Z','silicone-oil','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":90.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":0.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00"}','nurse:01a2144c-0dc4-76af-b5e1-621048543f91','2027-03-02T19:00:00.000000Z');
CREATE TABLE operations (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, created_at TEXT NOT NULL, ended_at TEXT
        ) STRICT;
INSERT INTO "operations" VALUES('01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','01a2144c-0dcd-75a7-b8c6-409ca0f22260','2027-03-02T19:00:00.000000Z',NULL);
INSERT INTO "operations" VALUES('01a2144c-0dd0-77ff-a2f2-0441c0ac10d7','01a2144c-0dd0-77ff-a2f2-04407ab69a5e','2027-03-02T19:00:00.000000Z',NULL);
CREATE TABLE patients (
            id TEXT PRIMARY KEY, number TEXT NOT NULL UNIQUE, name TEXT NOT NULL, born_on TEXT NOT NULL,
            phone TEXT NOT NULL, language TEXT NOT NULL, created_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "patients" VALUES('01a2144c-0dcd-75a7-b8c6-409ca0f22260','S-1','Pia Person','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z');
INSERT INTO "patients" VALUES('01a2144c-0dd0-77ff-a2f2-04407ab69a5e','S-2','Olaf Other','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z');
CREATE TABLE protocol_texts (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, text TEXT NOT NULL, fingerprint TEXT NOT NULL,
            saved_by TEXT NOT NULL, saved_at TEXT NOT NULL
        ) STRICT;
CREATE TABLE refused_events (
            id TEXT NOT NULL, operation_id TEXT, device_id TEXT, text TEXT NOT NULL, reason TEXT NOT NULL,
            received_at TEXT NOT NULL, UNIQUE (id, device_id, text)
        ) STRICT;
INSERT INTO "refused_events" VALUES('0195e5a0-0000-7000-8000-000000000003','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','01a2144c-0dd4-7706-b4db-26f2bc433a32','{"id": "0195e5a0-0000-7000-8000-000000000003", "operation": "01a2144c-0dcd-75a7-b8c6-409d47eeb8b6", "kind": "symptoms", "at": "2027-03-05T09:00:00Z", "offset_minutes": 60, "sequence": 3, "by": "patient", "body": {"pain": 99}}','pain: Input should be less than or equal to 10','2027-03-05T10:00:00.000000Z');
CREATE TABLE settings (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
CREATE TABLE signatures (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, fingerprint TEXT NOT NULL, signed_by TEXT NOT NULL REFERENCES staff,
            signed_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "signatures" VALUES('01a2144c-0e35-757f-adaa-2df56953dfc1','reviews','8409d8bc694c76d2','01a2144c-0dc8-7054-b0f8-dd983ef3702a','2027-03-05T10:00:00.000000Z');
CREATE TABLE staff (
            id TEXT PRIMARY KEY, name TEXT NOT NULL, role TEXT NOT NULL CHECK (role IN ('nurse', 'surgeon')),
            email TEXT NOT NULL UNIQUE, password_hash TEXT NOT NULL, created_at TEXT NOT NULL, left_at TEXT
        ) STRICT;
INSERT INTO "staff" VALUES('01a2144c-0dc4-76af-b5e1-621048543f91','Nora Nurse','nurse','nurse@test.invalid','$argon2id$v=19$m=8,t=1,p=1$Q/BZm0Uwk97iBJFb1+wQkA$Txe1nnIbteKfkFyiSXs6xEKyBDN+BeONfI4AFmbMToo','2027-03-02T14:00:00.000000Z',NULL);
INSERT INTO "staff" VALUES('01a2144c-0dc8-7054-b0f8-dd983ef3702a','Sol Surgeon','surgeon','surgeon@test.invalid','$argon2id$v=19$m=8,t=1,p=1$+CL7js8/4NwOGpp3iE+cMA$/gJf41H0y8PkT3okwClGLoYPcXszM9kvvoFkBNDnPSw','2027-03-02T14:00:00.000000Z',NULL);
CREATE TABLE tries (what TEXT NOT NULL, key TEXT NOT NULL, at TEXT NOT NULL) STRICT;
CREATE TABLE visits (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, name TEXT NOT NULL,
            target TEXT NOT NULL, earliest TEXT NOT NULL, latest TEXT NOT NULL, reason TEXT NOT NULL,
            recorded_by TEXT NOT NULL, recorded_at TEXT NOT NULL, replaces TEXT REFERENCES visits
        ) STRICT;
INSERT INTO "visits" VALUES('01a2144c-0dcd-75a7-b8c6-409ff5224daa','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a2144c-0dc4-76af-b5e1-621048543f91','2027-03-02T19:00:00.000000Z',NULL);
INSERT INTO "visits" VALUES('01a2144c-0dcd-75a7-b8c6-40a0dd5a0b89','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a2144c-0dc4-76af-b5e1-621048543f91','2027-03-02T19:00:00.000000Z',NULL);
INSERT INTO "visits" VALUES('01a2144c-0dd0-77ff-a2f2-04437b976759','01a2144c-0dd0-77ff-a2f2-0441c0ac10d7','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a2144c-0dc4-76af-b5e1-621048543f91','2027-03-02T19:00:00.000000Z',NULL);
INSERT INTO "visits" VALUES('01a2144c-0dd0-77ff-a2f2-0444ac715e99','01a2144c-0dd0-77ff-a2f2-0441c0ac10d7','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a2144c-0dc4-76af-b5e1-621048543f91','2027-03-02T19:00:00.000000Z',NULL);
INSERT INTO "visits" VALUES('01a2144c-0e1d-7322-8955-73071b5dbb22','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','week 1','2027-03-08','2027-03-05','2027-03-08','sooner','nurse:01a2144c-0dc4-76af-b5e1-621048543f91','2027-03-05T10:00:00.000000Z','01a2144c-0dcd-75a7-b8c6-40a0dd5a0b89');
INSERT INTO "visits" VALUES('01a2144c-0e2d-732f-a271-ba5b95135b76','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','week 1','2027-03-05','2027-03-05','2027-03-05','after a callback (infection)','nurse:01a2144c-0dc4-76af-b5e1-621048543f91','2027-03-05T10:00:00.000000Z','01a2144c-0e1d-7322-8955-73071b5dbb22');
CREATE TABLE warnings (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, callback_id TEXT NOT NULL REFERENCES callbacks,
            rule TEXT NOT NULL, worry TEXT NOT NULL, how_soon TEXT NOT NULL, raised_at TEXT NOT NULL, severity REAL NOT NULL,
            values_json TEXT NOT NULL, threshold TEXT NOT NULL, source TEXT NOT NULL, words TEXT NOT NULL,
            rulebook TEXT NOT NULL, recorded_at TEXT NOT NULL, UNIQUE (operation_id, rule, raised_at)
        ) STRICT;
INSERT INTO "warnings" VALUES('01a2144c-0def-77a2-8b54-2561a3aa106f','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','01a2144c-0dee-75e0-82f5-0c95969992a8','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144c-0def-77a2-8b54-2564c32fea03','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','01a2144c-0def-77a2-8b54-25621b75132d','posture-missed','posture','today','2027-03-03T23:00:00.000000Z',0.75,'{"date":"2027-03-03","hours":3.0,"target_hours":12}','{"share":0.5}','CP','Only 3 of 12 hours of posturing on 2027-03-03.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144c-0def-77a2-8b54-2567a223abba','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','01a2144c-0def-77a2-8b54-2565a9b2a179','silent-while-posturing','silence','today','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144c-0def-77a2-8b54-2569ccdbca5d','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','01a2144c-0def-77a2-8b54-2565a9b2a179','no-posture-entry','silence','today','2027-03-04T23:00:00.000000Z',1.0,'{"date":"2027-03-04"}','{}','CP','Nothing logged for posturing on 2027-03-04.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144c-0dfc-7041-a16a-a5ac9ff488b2','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','01a2144c-0dfc-7041-a16a-a5aaa3923c57','infection-suspected','infection','now','2027-03-05T09:00:00.000000Z',30.0,'{"pain":8,"vision":"worse"}','{"count":2,"signs":["pain>=4","vision=worse","redness=worse","discharge"]}','BOSU','Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144c-0dfc-7041-a16a-a5af068bce4f','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','01a2144c-0dfc-7041-a16a-a5ad4982e943','severe-pain','pressure','now','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=7"]}','VRS','Severe pain (8 of 10): pressure and infection must be ruled out.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144c-0dfc-7041-a16a-a5b20f00bdd9','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','01a2144c-0dfc-7041-a16a-a5b0a9a02e8a','curtain','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"curtain":true,"pain":8}','{"count":1,"signs":["curtain"]}','Yor18','A curtain or shadow that does not move with the bubble: new detachment until shown otherwise.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144c-0dfd-7386-9fb9-cf72b263ae2d','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','01a2144c-0dfc-7041-a16a-a5ad4982e943','pain','pressure','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=5"]}','VRS','Pain of 8 of 10, beyond what simple painkillers usually hold.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144c-0dfd-7386-9fb9-cf74a279eb32','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','01a2144c-0dfc-7041-a16a-a5b0a9a02e8a','vision-worse','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','VRS','The patient says that the vision fell.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144c-0e0e-7622-a36c-30a8e2d08d39','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','01a2144c-0dfc-7041-a16a-a5ad4982e943','pressure-severe','pressure','now','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":40}','Bern12','Pressure 41 mmHg, at or above 40.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144c-0e0f-7142-9900-c7ddadd723f9','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','01a2144c-0dfc-7041-a16a-a5ad4982e943','pressure-spike','pressure','today','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":30}','Bern12','Pressure 41 mmHg, at or above 30.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144c-0e0f-7142-9900-c7df3d3ed90f','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','01a2144c-0dfc-7041-a16a-a5ad4982e943','pressure-raised','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":24}','NICE','Pressure 41 mmHg, at or above 24.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144c-0e0f-7142-9900-c7e1cbe306c5','01a2144c-0dcd-75a7-b8c6-409d47eeb8b6','01a2144c-0dfc-7041-a16a-a5ad4982e943','pressure-rise','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"baseline_mmhg":15,"instrument":"applanation","iop_mmhg":41.0,"pain":null,"risen_mmhg":26.0}','{"mmhg":24,"rise_mmhg":10}','NICE','Pressure 41 mmHg, 26 above this eye’s own 15.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144c-0e13-7175-92c3-f9828eb19e21','01a2144c-0dd0-77ff-a2f2-0441c0ac10d7','01a2144c-0e13-7175-92c3-f9803d22920b','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144c-0e14-701c-a428-dc65734b9734','01a2144c-0dd0-77ff-a2f2-0441c0ac10d7','01a2144c-0e14-701c-a428-dc63d5968235','no-posture-entry','silence','today','2027-03-03T23:00:00.000000Z',1.0,'{"date":"2027-03-03"}','{}','CP','Nothing logged for posturing on 2027-03-03.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144c-0e14-701c-a428-dc67a14c9925','01a2144c-0dd0-77ff-a2f2-0441c0ac10d7','01a2144c-0e14-701c-a428-dc63d5968235','silent-while-posturing','silence','today','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','a3d8cb79b6895680','2027-03-05T10:00:00.000000Z');
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
