BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'followup','m001_people','2026-11-26 04:20:27.228345+00:00');
INSERT INTO "_sqlite_migrations" VALUES(2,'followup','m002_eyes','2026-11-26 04:20:27.232921+00:00');
INSERT INTO "_sqlite_migrations" VALUES(3,'followup','m003_worries','2026-11-26 04:20:27.249765+00:00');
INSERT INTO "_sqlite_migrations" VALUES(4,'followup','m004_audit','2026-11-26 04:20:27.255218+00:00');
INSERT INTO "_sqlite_migrations" VALUES(5,'followup','m005_messages','2026-11-26 04:20:27.289796+00:00');
INSERT INTO "_sqlite_migrations" VALUES(6,'followup','m006_repair','2026-11-26 04:20:27.308581+00:00');
INSERT INTO "_sqlite_migrations" VALUES(7,'followup','m007_tasks','2026-11-26 04:20:27.335093+00:00');
INSERT INTO "_sqlite_migrations" VALUES(8,'followup','m008_visit_identities','2026-11-26 04:20:27.357861+00:00');
INSERT INTO "_sqlite_migrations" VALUES(9,'followup','m009_watch','2026-11-26 04:20:27.364879+00:00');
INSERT INTO "_sqlite_migrations" VALUES(10,'followup','m011_bounds','2026-11-26 04:20:27.381017+00:00');
INSERT INTO "_sqlite_migrations" VALUES(11,'followup','m020_two_eyes','2026-11-26 04:20:27.521632+00:00');
INSERT INTO "_sqlite_migrations" VALUES(12,'followup','m021_grounds_of_warnings','2026-11-26 04:20:27.533614+00:00');
INSERT INTO "_sqlite_migrations" VALUES(13,'followup','m025_joined_by_index','2026-11-26 04:20:27.538080+00:00');
INSERT INTO "_sqlite_migrations" VALUES(14,'followup','m026_one_call','2026-11-26 04:20:27.580906+00:00');
INSERT INTO "_sqlite_migrations" VALUES(15,'followup','m027_book_of_visits','2026-11-26 04:20:27.609657+00:00');
CREATE TABLE audit (
            number INTEGER PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, action TEXT NOT NULL, subject TEXT NOT NULL,
            detail TEXT NOT NULL, previous TEXT NOT NULL, hash TEXT NOT NULL
        ) STRICT;
INSERT INTO "audit" VALUES(1,'2027-03-02T14:00:00.000000Z','command line','staff added','01a21615-5962-756b-85ed-b79b06139841','{"role":"nurse"}','0000000000000000000000000000000000000000000000000000000000000000','8ac9d33e5d7c2d5d7f1747146762e80b57baf77fef6207f5afe3ae1e1dcd55c1');
INSERT INTO "audit" VALUES(2,'2027-03-02T14:00:00.000000Z','command line','staff added','01a21615-5971-74ae-a34f-276f1789a244','{"role":"surgeon"}','8ac9d33e5d7c2d5d7f1747146762e80b57baf77fef6207f5afe3ae1e1dcd55c1','45cae9eef6d12526f26bc2f9ef891192dfe28f018aca338644b6ffcda5a724d8');
INSERT INTO "audit" VALUES(3,'2027-03-02T19:00:00.000000Z','nurse:01a21615-5962-756b-85ed-b79b06139841','enrolment code','01a21615-597d-72c8-ad23-2d09e8445e80','null','45cae9eef6d12526f26bc2f9ef891192dfe28f018aca338644b6ffcda5a724d8','90004a8a38d0fd215a4280b7b8ea069da5606cd0751362a058e8d20cab23aef8');
INSERT INTO "audit" VALUES(4,'2027-03-02T19:00:00.000000Z','nurse:01a21615-5962-756b-85ed-b79b06139841','discharge','01a21615-597d-72c8-ad23-2d0aa4b2bd30','{"agent":"c2f6","eye":"right"}','90004a8a38d0fd215a4280b7b8ea069da5606cd0751362a058e8d20cab23aef8','7cba3cc5c26fecd25770b74c350f14596ce4b0fd2d369b251c9abbe7ca3c8bce');
INSERT INTO "audit" VALUES(5,'2027-03-02T19:00:00.000000Z','nurse:01a21615-5962-756b-85ed-b79b06139841','enrolment code','01a21615-5988-76db-954d-567d438c7de1','null','7cba3cc5c26fecd25770b74c350f14596ce4b0fd2d369b251c9abbe7ca3c8bce','cfe40418634b465d3a60127abe8e8281756e97e121f360c48282f239cebf0818');
INSERT INTO "audit" VALUES(6,'2027-03-02T19:00:00.000000Z','nurse:01a21615-5962-756b-85ed-b79b06139841','discharge','01a21615-5988-76db-954d-567ea54d41ca','{"agent":"silicone-oil","eye":"right"}','cfe40418634b465d3a60127abe8e8281756e97e121f360c48282f239cebf0818','cf992d71c24b247404294e104c6af3d643dc84992e34a95709f7252f8b8356b9');
INSERT INTO "audit" VALUES(7,'2027-03-02T20:00:00.000000Z','patient:01a21615-5991-7165-a8c0-9047e86dee9a','device enrolled','01a21615-597d-72c8-ad23-2d09e8445e80','null','cf992d71c24b247404294e104c6af3d643dc84992e34a95709f7252f8b8356b9','e4ca394b99e88df2040b2560188c3480d9b4dcb69f7b8e78c9e0c22c16b5ed90');
INSERT INTO "audit" VALUES(8,'2027-03-05T10:00:00.000000Z','patient:01a21615-5991-7165-a8c0-9047e86dee9a','event posture','01a21615-597d-72c8-ad23-2d0aa4b2bd30','{"id":"0195e5a0-0000-7000-8000-000000000001"}','e4ca394b99e88df2040b2560188c3480d9b4dcb69f7b8e78c9e0c22c16b5ed90','38675df451ded5d291da1e2c0d0f56945cc4bcfbf8c775c43ddf8640550ad986');
INSERT INTO "audit" VALUES(9,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-597d-72c8-ad23-2d0aa4b2bd30','{"how_soon":"today","rule":"missed-early-visit"}','38675df451ded5d291da1e2c0d0f56945cc4bcfbf8c775c43ddf8640550ad986','ad37d9d9df831d3c508e9d41bef8a6fb490eb3acdb691792456e3ea0126689e1');
INSERT INTO "audit" VALUES(10,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-597d-72c8-ad23-2d0aa4b2bd30','{"how_soon":"this-week","rule":"posture-missed"}','ad37d9d9df831d3c508e9d41bef8a6fb490eb3acdb691792456e3ea0126689e1','778b5dee179711bd9776b2f655ff60b5244b410be5a98c842b8cc9132dbcfbcc');
INSERT INTO "audit" VALUES(11,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-597d-72c8-ad23-2d0aa4b2bd30','{"how_soon":"this-week","rule":"silent-while-posturing"}','778b5dee179711bd9776b2f655ff60b5244b410be5a98c842b8cc9132dbcfbcc','c4abbad0fa444413b2a8264f90cc580011d5252f057f743eaaa6e7e994ff2dcf');
INSERT INTO "audit" VALUES(12,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-597d-72c8-ad23-2d0aa4b2bd30','{"how_soon":"this-week","rule":"no-posture-entry"}','c4abbad0fa444413b2a8264f90cc580011d5252f057f743eaaa6e7e994ff2dcf','f6089d635ec2bfdf9626118640188e195aa851c528cef4c6c1d2a622cca57bd9');
INSERT INTO "audit" VALUES(13,'2027-03-05T10:00:00.000000Z','patient:01a21615-5991-7165-a8c0-9047e86dee9a','event symptoms','01a21615-597d-72c8-ad23-2d0aa4b2bd30','{"id":"0195e5a0-0000-7000-8000-000000000002"}','f6089d635ec2bfdf9626118640188e195aa851c528cef4c6c1d2a622cca57bd9','a2755a3621e68fc0440df89be4f68fda5970712dd41640f1405027df214f15c0');
INSERT INTO "audit" VALUES(14,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-597d-72c8-ad23-2d0aa4b2bd30','{"how_soon":"now","rule":"infection-suspected"}','a2755a3621e68fc0440df89be4f68fda5970712dd41640f1405027df214f15c0','af95746ac2520e44f76683474b2481647caf3cd70b38ada87d7b7a31fc185eb2');
INSERT INTO "audit" VALUES(15,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-597d-72c8-ad23-2d0aa4b2bd30','{"how_soon":"now","rule":"severe-pain"}','af95746ac2520e44f76683474b2481647caf3cd70b38ada87d7b7a31fc185eb2','873de50d4b14c63ad9f3141536452ef05a753e77071b90d08a7860b472d97159');
INSERT INTO "audit" VALUES(16,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-597d-72c8-ad23-2d0aa4b2bd30','{"how_soon":"today","rule":"curtain"}','873de50d4b14c63ad9f3141536452ef05a753e77071b90d08a7860b472d97159','62de7102de028adeacab1b67a362da0b9a89be28082ad1cffb18019a802f2206');
INSERT INTO "audit" VALUES(17,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-597d-72c8-ad23-2d0aa4b2bd30','{"how_soon":"today","rule":"pain"}','62de7102de028adeacab1b67a362da0b9a89be28082ad1cffb18019a802f2206','2b1f6c7824862c06dc4ea740942951788860a64c75ae8653af72ba7dc61f6de9');
INSERT INTO "audit" VALUES(18,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-597d-72c8-ad23-2d0aa4b2bd30','{"how_soon":"today","rule":"vision-worse"}','2b1f6c7824862c06dc4ea740942951788860a64c75ae8653af72ba7dc61f6de9','8c3cf7be71bfb22f3cd07bfb315f0f3011fa4a7db5d834c5775baf4ff4bfc284');
INSERT INTO "audit" VALUES(19,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-597d-72c8-ad23-2d0aa4b2bd30','{"how_soon":"this-week","rule":"vision-said-worse"}','8c3cf7be71bfb22f3cd07bfb315f0f3011fa4a7db5d834c5775baf4ff4bfc284','a40a144ce6578892d0cfb875ef6b94bb816f05bcbc5a7a13da81098c49eb8c2f');
INSERT INTO "audit" VALUES(20,'2027-03-05T10:00:00.000000Z','nurse:01a21615-5962-756b-85ed-b79b06139841','event measures','01a21615-597d-72c8-ad23-2d0aa4b2bd30','{"id":"01a21615-5a9e-778a-a9ac-4fcff6961ca0"}','a40a144ce6578892d0cfb875ef6b94bb816f05bcbc5a7a13da81098c49eb8c2f','4ec42fa3473d406d4067ee233929876a2957efa37bdffa7e1cd51fa3ec325b49');
INSERT INTO "audit" VALUES(21,'2027-03-05T10:00:00.000000Z','nurse:01a21615-5962-756b-85ed-b79b06139841','event seen','01a21615-597d-72c8-ad23-2d0aa4b2bd30','{"id":"01a21615-5aed-761c-b276-04e1359d5b96"}','4ec42fa3473d406d4067ee233929876a2957efa37bdffa7e1cd51fa3ec325b49','ea6c643c31e74c265d22c27b9ec6f1bf6b62562fa53a6786a99b0f4706678982');
INSERT INTO "audit" VALUES(22,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-597d-72c8-ad23-2d0aa4b2bd30','{"how_soon":"now","rule":"pressure-severe"}','ea6c643c31e74c265d22c27b9ec6f1bf6b62562fa53a6786a99b0f4706678982','c718b93a833e87661a853812803720e39bf8615b936b6c6f4501806aa3e6c82c');
INSERT INTO "audit" VALUES(23,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-597d-72c8-ad23-2d0aa4b2bd30','{"how_soon":"today","rule":"pressure-spike"}','c718b93a833e87661a853812803720e39bf8615b936b6c6f4501806aa3e6c82c','d45a50a1425efbdb0b55a161fdfcb34d269c78ebca4c3f0d4b16192958edf482');
INSERT INTO "audit" VALUES(24,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-597d-72c8-ad23-2d0aa4b2bd30','{"how_soon":"this-week","rule":"pressure-raised"}','d45a50a1425efbdb0b55a161fdfcb34d269c78ebca4c3f0d4b16192958edf482','3d069a0e921681811cb0b48f62917bc1c04de78f27133c98e346d6056891425f');
INSERT INTO "audit" VALUES(25,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-597d-72c8-ad23-2d0aa4b2bd30','{"how_soon":"this-week","rule":"pressure-rise"}','3d069a0e921681811cb0b48f62917bc1c04de78f27133c98e346d6056891425f','86de4f7a80bdd2f470b35cd0d93092d00317702ed1d2f4f9aa05e9a9def8c086');
INSERT INTO "audit" VALUES(26,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-597d-72c8-ad23-2d0aa4b2bd30','{"how_soon":"this-week","rule":"pressure-rising"}','86de4f7a80bdd2f470b35cd0d93092d00317702ed1d2f4f9aa05e9a9def8c086','0a6beb2e07393a02acdbcfd846a73240a4dc85fc35d44fe81f631552cef47a70');
INSERT INTO "audit" VALUES(27,'2027-03-05T10:00:00.000000Z','nurse:01a21615-5962-756b-85ed-b79b06139841','event measures','01a21615-5988-76db-954d-567ea54d41ca','{"id":"01a21615-5b34-7193-96e6-1300482cc114"}','0a6beb2e07393a02acdbcfd846a73240a4dc85fc35d44fe81f631552cef47a70','e94742063ca874ff75bb91535db25e165300f45864779f34862476352644cef9');
INSERT INTO "audit" VALUES(28,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-5988-76db-954d-567ea54d41ca','{"how_soon":"today","rule":"missed-early-visit"}','e94742063ca874ff75bb91535db25e165300f45864779f34862476352644cef9','74788982d6f0f1a76d01b97848ae013b8158b9e54aaaaef9691cc77f88bf5f6f');
INSERT INTO "audit" VALUES(29,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-5988-76db-954d-567ea54d41ca','{"how_soon":"this-week","rule":"no-posture-entry"}','74788982d6f0f1a76d01b97848ae013b8158b9e54aaaaef9691cc77f88bf5f6f','3edf902e45f740377b3ca5a4e0e678c20c4aa8cb0e8458b27b0d596fb839e478');
INSERT INTO "audit" VALUES(30,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-5988-76db-954d-567ea54d41ca','{"how_soon":"this-week","rule":"silent-while-posturing"}','3edf902e45f740377b3ca5a4e0e678c20c4aa8cb0e8458b27b0d596fb839e478','42a5f2ce6fb2f7dc245cb8ce68163597ea822a7633a089346a47cff3ecda83ba');
INSERT INTO "audit" VALUES(31,'2027-03-05T10:00:00.000000Z','nurse:01a21615-5962-756b-85ed-b79b06139841','callback claimed','01a21615-5a77-76ef-a97d-1cec3b67b9e9','null','42a5f2ce6fb2f7dc245cb8ce68163597ea822a7633a089346a47cff3ecda83ba','cb9fa25413328c17b2f142dc8552a1b1340bba1c3d6d9b86b8ac6a89bce91340');
INSERT INTO "audit" VALUES(32,'2027-03-05T10:00:00.000000Z','nurse:01a21615-5962-756b-85ed-b79b06139841','callback attempt','01a21615-5a77-76ef-a97d-1cec3b67b9e9','{"reached":true}','cb9fa25413328c17b2f142dc8552a1b1340bba1c3d6d9b86b8ac6a89bce91340','498a7eb494a357133f9e24413c43897477f3fcdcd8de7d1928d96128db0bc297');
INSERT INTO "audit" VALUES(33,'2027-03-05T10:00:00.000000Z','nurse:01a21615-5962-756b-85ed-b79b06139841','callback settled','01a21615-5a77-76ef-a97d-1cec3b67b9e9','{"outcome":"advice"}','498a7eb494a357133f9e24413c43897477f3fcdcd8de7d1928d96128db0bc297','665abdd39d7a8234ae7749c09f834366426cb00fd983eac23cbec65c0051c77e');
INSERT INTO "audit" VALUES(34,'2027-03-05T10:00:00.000000Z','surgeon:01a21615-5971-74ae-a34f-276f1789a244','protocol signed','reviews','{"fingerprint":"f544271cc2c2f9b1"}','665abdd39d7a8234ae7749c09f834366426cb00fd983eac23cbec65c0051c77e','f00ff1ad2b6f94af25ced896af76d02537bc0fcac93a015cd86fbc40a1c9a1fd');
CREATE TABLE callback_steps (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks, at TEXT NOT NULL, who TEXT NOT NULL,
            step TEXT NOT NULL, detail TEXT NOT NULL
        ) STRICT;
INSERT INTO "callback_steps" VALUES('01a21615-5a0f-7724-9fe4-71b0427c06c1','01a21615-5a0f-7724-9fe4-71afc4b40783','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a21615-5a22-7756-8baf-1b48c47c5a15','01a21615-5a22-7756-8baf-1b477182cfff','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"posture-missed","words":"Only 3 of 12 hours of posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a21615-5a23-716f-b624-35345398de70','01a21615-5a23-716f-b624-3533c444195d','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a21615-5a33-7488-9e37-a68ed717b5a1','01a21615-5a23-716f-b624-3533c444195d','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-04."}');
INSERT INTO "callback_steps" VALUES('01a21615-5a77-76ef-a97d-1ced7ac88705','01a21615-5a77-76ef-a97d-1cec3b67b9e9','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"infection-suspected","words":"Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five."}');
INSERT INTO "callback_steps" VALUES('01a21615-5a77-76ef-a97d-1cf04f41d262','01a21615-5a77-76ef-a97d-1cefe6ffad6a','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"severe-pain","words":"Severe pain (8 of 10): pressure and infection must be ruled out."}');
INSERT INTO "callback_steps" VALUES('01a21615-5a77-76ef-a97d-1cf3d9bc65b1','01a21615-5a77-76ef-a97d-1cf28c4c6f1f','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"curtain","words":"A curtain or shadow that does not move with the bubble: new detachment until shown otherwise."}');
INSERT INTO "callback_steps" VALUES('01a21615-5a77-76ef-a97d-1cf5ad2c074b','01a21615-5a77-76ef-a97d-1cefe6ffad6a','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pain","words":"Pain of 8 of 10, beyond what simple painkillers usually hold."}');
INSERT INTO "callback_steps" VALUES('01a21615-5a78-7465-a8ab-5f0640c15a71','01a21615-5a77-76ef-a97d-1cf28c4c6f1f','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"vision-worse","words":"The patient says that the vision fell."}');
INSERT INTO "callback_steps" VALUES('01a21615-5a7c-75f9-b934-6ec56a0d7662','01a21615-5a77-76ef-a97d-1cf28c4c6f1f','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"vision-said-worse","words":"The patient said that the vision fell. Ask again, whatever the second look said."}');
INSERT INTO "callback_steps" VALUES('01a21615-5b0c-7221-8fe6-8b44fbb79bbd','01a21615-5a77-76ef-a97d-1cefe6ffad6a','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"now","rule":"pressure-severe","words":"Pressure 41 mmHg, at or above 40."}');
INSERT INTO "callback_steps" VALUES('01a21615-5b14-70af-8f4c-5a2ac0035f35','01a21615-5a77-76ef-a97d-1cefe6ffad6a','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pressure-spike","words":"Pressure 41 mmHg, at or above 30."}');
INSERT INTO "callback_steps" VALUES('01a21615-5b15-76a4-ab15-f14034933085','01a21615-5a77-76ef-a97d-1cefe6ffad6a','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-raised","words":"Pressure 41 mmHg, at or above 24."}');
INSERT INTO "callback_steps" VALUES('01a21615-5b15-76a4-ab15-f142fa028f34','01a21615-5a77-76ef-a97d-1cefe6ffad6a','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rise","words":"Pressure 41 mmHg, 26 above this eye’s own 15."}');
INSERT INTO "callback_steps" VALUES('01a21615-5b15-76a4-ab15-f14455172ff3','01a21615-5a77-76ef-a97d-1cefe6ffad6a','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rising","words":"Pressure 41 mmHg, 26 above what is usual for this eye (15)."}');
INSERT INTO "callback_steps" VALUES('01a21615-5b44-7174-a00d-aa0001fb0e6a','01a21615-5b44-7174-a00d-a9ff8fc8e131','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a21615-5b48-774a-b5b3-92bdcf86b6f2','01a21615-5b48-774a-b5b3-92bc5c5b76cf','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a21615-5b49-7230-835f-cd2aa7a1803d','01a21615-5b48-774a-b5b3-92bc5c5b76cf','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a21615-5b81-7418-922b-81492731a7e3','01a21615-5a77-76ef-a97d-1cec3b67b9e9','2027-03-05T10:00:00.000000Z','nurse:01a21615-5962-756b-85ed-b79b06139841','claimed','{"by":"Nora Nurse"}');
INSERT INTO "callback_steps" VALUES('01a21615-5b8a-7396-8ff9-aa1d403b3c73','01a21615-5a77-76ef-a97d-1cec3b67b9e9','2027-03-05T10:00:00.000000Z','nurse:01a21615-5962-756b-85ed-b79b06139841','reached','{"by":"Nora Nurse","next_try":null,"spoke_to":"patient","words":"comes at once"}');
INSERT INTO "callback_steps" VALUES('01a21615-5ba5-702c-8ca3-f9311f334c6d','01a21615-5a77-76ef-a97d-1cec3b67b9e9','2027-03-05T10:00:00.000000Z','nurse:01a21615-5962-756b-85ed-b79b06139841','settled','{"by":"Nora Nurse","outcome":"advice","words":"comes at two"}');
CREATE TABLE callbacks (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", worry TEXT NOT NULL,
            how_soon TEXT NOT NULL CHECK (how_soon IN ('now', 'today', 'this-week')),
            opened_at TEXT NOT NULL, due_at TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('waiting', 'claimed', 'settled')),
            claimed_by TEXT REFERENCES staff, claimed_at TEXT, settled_at TEXT, outcome TEXT,
            level INTEGER NOT NULL DEFAULT 0
        , settled_by TEXT REFERENCES staff, next_try_at TEXT, moved_up INTEGER NOT NULL DEFAULT 0) STRICT;
INSERT INTO "callbacks" VALUES('01a21615-5a0f-7724-9fe4-71afc4b40783','01a21615-597d-72c8-ad23-2d0aa4b2bd30','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21615-5a22-7756-8baf-1b477182cfff','01a21615-597d-72c8-ad23-2d0aa4b2bd30','posture','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21615-5a23-716f-b624-3533c444195d','01a21615-597d-72c8-ad23-2d0aa4b2bd30','silence','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21615-5a77-76ef-a97d-1cec3b67b9e9','01a21615-597d-72c8-ad23-2d0aa4b2bd30','infection','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','settled','01a21615-5962-756b-85ed-b79b06139841','2027-03-05T10:00:00.000000Z','2027-03-05T10:00:00.000000Z','advice',0,'01a21615-5962-756b-85ed-b79b06139841',NULL,0);
INSERT INTO "callbacks" VALUES('01a21615-5a77-76ef-a97d-1cefe6ffad6a','01a21615-597d-72c8-ad23-2d0aa4b2bd30','pressure','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21615-5a77-76ef-a97d-1cf28c4c6f1f','01a21615-597d-72c8-ad23-2d0aa4b2bd30','retina','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21615-5b44-7174-a00d-a9ff8fc8e131','01a21615-5988-76db-954d-567ea54d41ca','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21615-5b48-774a-b5b3-92bc5c5b76cf','01a21615-5988-76db-954d-567ea54d41ca','silence','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
CREATE TABLE closures (
            number INTEGER PRIMARY KEY, day TEXT NOT NULL CHECK (date(day, '+0 days') IS day),
            closed INTEGER NOT NULL CHECK (closed IN (0, 1)), why TEXT NOT NULL, recorded_by TEXT NOT NULL,
            recorded_at TEXT NOT NULL
        ) STRICT;
CREATE TABLE devices (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, token_hash TEXT NOT NULL UNIQUE,
            used_by TEXT NOT NULL, enrolled_at TEXT NOT NULL, heard_at TEXT NOT NULL, revoked_at TEXT, revoked_by TEXT
        ) STRICT;
INSERT INTO "devices" VALUES('01a21615-5991-7165-a8c0-9047e86dee9a','01a21615-597d-72c8-ad23-2d09e8445e80','59c3a098b36b7d0d38bb5a68c097d25bc21592561ecdf8365cbbadfd6b18aaac','patient','2027-03-02T20:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,NULL);
CREATE TABLE enrolments (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, code_hash TEXT NOT NULL UNIQUE,
            created_by TEXT NOT NULL, created_at TEXT NOT NULL, expires_at TEXT NOT NULL,
            used_at TEXT, wrong_tries INTEGER NOT NULL DEFAULT 0
        ) STRICT;
INSERT INTO "enrolments" VALUES('01a21615-5985-702c-8979-facfddc66c06','01a21615-597d-72c8-ad23-2d09e8445e80','e4649068533cbc24eb06e158dc0fe26552cb7907fbda364395f2c2abd36c987b','nurse:01a21615-5962-756b-85ed-b79b06139841','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z','2027-03-02T20:00:00.000000Z',0);
INSERT INTO "enrolments" VALUES('01a21615-5989-7276-bcd9-0d6be7431d56','01a21615-5988-76db-954d-567d438c7de1','bad9959732f5a812397559841ab1342b8296255fed2bf2b22f4fd0291602365e','nurse:01a21615-5962-756b-85ed-b79b06139841','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z',NULL,0);
CREATE TABLE events (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", kind TEXT NOT NULL, at TEXT NOT NULL,
            body TEXT NOT NULL, author TEXT NOT NULL, device_id TEXT REFERENCES devices, sequence INTEGER,
            offset_minutes INTEGER, device_at TEXT, received_at TEXT NOT NULL, corrects TEXT REFERENCES events
        , reason TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000001','01a21615-597d-72c8-ad23-2d0aa4b2bd30','posture','2027-03-05T09:00:00.000000Z','{"from":"2027-03-03T08:00:00Z","position":"face-down","to":"2027-03-03T11:00:00Z"}','patient:01a21615-5991-7165-a8c0-9047e86dee9a','01a21615-5991-7165-a8c0-9047e86dee9a',1,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000002','01a21615-597d-72c8-ad23-2d0aa4b2bd30','symptoms','2027-03-05T09:00:00.000000Z','{"cannot_tell":[],"curtain":true,"pain":8,"vision":"worse","words":""}','patient:01a21615-5991-7165-a8c0-9047e86dee9a','01a21615-5991-7165-a8c0-9047e86dee9a',2,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21615-5a9e-778a-a9ac-4fcff6961ca0','01a21615-597d-72c8-ad23-2d0aa4b2bd30','measures','2027-03-05T10:00:00.000000Z','{"acuity":"6/60","bubble_percent":85.0,"eye":"right","findings":[],"instrument":"applanation","iop_mmhg":41.0,"notes":""}','nurse:01a21615-5962-756b-85ed-b79b06139841',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21615-5aed-761c-b276-04e1359d5b96','01a21615-597d-72c8-ad23-2d0aa4b2bd30','seen','2027-03-05T10:00:00.000000Z','{"visit":"day 1","visit_id":"01a21615-5984-721a-8139-8f0656f2591f"}','nurse:01a21615-5962-756b-85ed-b79b06139841',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21615-5b34-7193-96e6-1300482cc114','01a21615-5988-76db-954d-567ea54d41ca','measures','2027-03-05T10:00:00.000000Z','{"acuity":"HM","eye":"right","findings":[],"iop_mmhg":14.0,"notes":""}','nurse:01a21615-5962-756b-85ed-b79b06139841',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21615-5b8a-7396-8ff9-aa1c8c84d7e7','01a21615-597d-72c8-ad23-2d0aa4b2bd30','heard','2027-03-05T10:00:00.000000Z','{"words":"comes at once"}','nurse:01a21615-5962-756b-85ed-b79b06139841',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
CREATE TABLE "eyes" (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, created_at TEXT NOT NULL, ended_at TEXT
        , side TEXT CHECK (side IN ('right', 'left')), followed_since TEXT, end_reason TEXT, joined_into TEXT REFERENCES eyes) STRICT;
INSERT INTO "eyes" VALUES('01a21615-597d-72c8-ad23-2d0aa4b2bd30','01a21615-597d-72c8-ad23-2d09e8445e80','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a21615-597e-75f9-acf5-d21088bc1e49','01a21615-597d-72c8-ad23-2d09e8445e80','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
INSERT INTO "eyes" VALUES('01a21615-5988-76db-954d-567ea54d41ca','01a21615-5988-76db-954d-567d438c7de1','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a21615-5988-76db-954d-567f7318982f','01a21615-5988-76db-954d-567d438c7de1','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
CREATE TABLE faults (
            what TEXT NOT NULL, about TEXT NOT NULL, words TEXT NOT NULL, first_at TEXT NOT NULL, last_at TEXT NOT NULL,
            times INTEGER NOT NULL DEFAULT 1, PRIMARY KEY (what, about)
        ) STRICT;
CREATE TABLE follow_ups (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, at TEXT NOT NULL,
            what TEXT NOT NULL CHECK (what IN ('begun', 'ended', 'resumed')), reason TEXT NOT NULL, words TEXT NOT NULL,
            recorded_by TEXT NOT NULL
        ) STRICT;
INSERT INTO "follow_ups" VALUES('01a21615-5985-702c-8979-face21e1e67f','01a21615-597d-72c8-ad23-2d0aa4b2bd30','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a21615-5962-756b-85ed-b79b06139841');
INSERT INTO "follow_ups" VALUES('01a21615-5989-7276-bcd9-0d6ae5485fbb','01a21615-5988-76db-954d-567ea54d41ca','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a21615-5962-756b-85ed-b79b06139841');
CREATE TABLE job_runs (job TEXT PRIMARY KEY, started_at TEXT NOT NULL, ended_at TEXT, result TEXT) STRICT;
CREATE TABLE looks (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", at TEXT NOT NULL, who TEXT NOT NULL
        ) STRICT;
CREATE TABLE message_choices (
            person TEXT PRIMARY KEY, email TEXT NOT NULL, language TEXT NOT NULL, quiet_from TEXT NOT NULL,
            quiet_to TEXT NOT NULL, unwanted TEXT NOT NULL, chosen_at TEXT NOT NULL
        ) STRICT;
CREATE TABLE messages (
            key TEXT PRIMARY KEY, person TEXT NOT NULL, kind TEXT NOT NULL, about TEXT NOT NULL, made_at TEXT NOT NULL,
            useless_after TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('waiting', 'sending', 'sent', 'dropped')),
            tries INTEGER NOT NULL DEFAULT 0, next_try_at TEXT NOT NULL, taken_at TEXT, ended_at TEXT,
            detail TEXT NOT NULL DEFAULT ''
        ) STRICT;
CREATE TABLE "operation_records" (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, eye TEXT NOT NULL,
            operated_at TEXT NOT NULL, agent TEXT NOT NULL, surgeon TEXT NOT NULL, body TEXT NOT NULL,
            recorded_by TEXT NOT NULL, recorded_at TEXT NOT NULL, reason TEXT NOT NULL DEFAULT ''
        ) STRICT;
INSERT INTO "operation_records" VALUES('01a21615-5984-721a-8139-8f0516591a04','01a21615-5980-73c4-b2dc-9b14416a3d86','right','2027-03-02T14:00:00.000000Z','c2f6','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":95.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":16.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a21615-5962-756b-85ed-b79b06139841','2027-03-02T19:00:00.000000Z','');
INSERT INTO "operation_records" VALUES('01a21615-5989-7276-bcd9-0d67d0782651','01a21615-5989-7276-bcd9-0d66183984d4','right','2027-03-02T14:00:00.000000Z','silicone-oil','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":90.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":0.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a21615-5962-756b-85ed-b79b06139841','2027-03-02T19:00:00.000000Z','');
CREATE TABLE operations (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, created_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "operations" VALUES('01a21615-5980-73c4-b2dc-9b14416a3d86','01a21615-597d-72c8-ad23-2d0aa4b2bd30','2027-03-02T19:00:00.000000Z');
INSERT INTO "operations" VALUES('01a21615-5989-7276-bcd9-0d66183984d4','01a21615-5988-76db-954d-567ea54d41ca','2027-03-02T19:00:00.000000Z');
CREATE TABLE patient_terms (term TEXT NOT NULL, patient_id TEXT NOT NULL REFERENCES patients) STRICT;
INSERT INTO "patient_terms" VALUES('erson','01a21615-597d-72c8-ad23-2d09e8445e80');
INSERT INTO "patient_terms" VALUES('ia','01a21615-597d-72c8-ad23-2d09e8445e80');
INSERT INTO "patient_terms" VALUES('9','01a21615-597d-72c8-ad23-2d09e8445e80');
INSERT INTO "patient_terms" VALUES('pia','01a21615-597d-72c8-ad23-2d09e8445e80');
INSERT INTO "patient_terms" VALUES('76','01a21615-597d-72c8-ad23-2d09e8445e80');
INSERT INTO "patient_terms" VALUES('on','01a21615-597d-72c8-ad23-2d09e8445e80');
INSERT INTO "patient_terms" VALUES('09876','01a21615-597d-72c8-ad23-2d09e8445e80');
INSERT INTO "patient_terms" VALUES('son','01a21615-597d-72c8-ad23-2d09e8445e80');
INSERT INTO "patient_terms" VALUES('876','01a21615-597d-72c8-ad23-2d09e8445e80');
INSERT INTO "patient_terms" VALUES('00','01a21615-597d-72c8-ad23-2d09e8445e80');
INSERT INTO "patient_terms" VALUES('person','01a21615-597d-72c8-ad23-2d09e8445e80');
INSERT INTO "patient_terms" VALUES('rson','01a21615-597d-72c8-ad23-2d09e8445e80');
INSERT INTO "patient_terms" VALUES('1','01a21615-597d-72c8-ad23-2d09e8445e80');
INSERT INTO "patient_terms" VALUES('s1','01a21615-597d-72c8-ad23-2d09e8445e80');
INSERT INTO "patient_terms" VALUES('009876','01a21615-597d-72c8-ad23-2d09e8445e80');
INSERT INTO "patient_terms" VALUES('s','01a21615-597d-72c8-ad23-2d09e8445e80');
INSERT INTO "patient_terms" VALUES('9876','01a21615-597d-72c8-ad23-2d09e8445e80');
INSERT INTO "patient_terms" VALUES('s2','01a21615-5988-76db-954d-567d438c7de1');
INSERT INTO "patient_terms" VALUES('9','01a21615-5988-76db-954d-567d438c7de1');
INSERT INTO "patient_terms" VALUES('olaf','01a21615-5988-76db-954d-567d438c7de1');
INSERT INTO "patient_terms" VALUES('76','01a21615-5988-76db-954d-567d438c7de1');
INSERT INTO "patient_terms" VALUES('laf','01a21615-5988-76db-954d-567d438c7de1');
INSERT INTO "patient_terms" VALUES('ther','01a21615-5988-76db-954d-567d438c7de1');
INSERT INTO "patient_terms" VALUES('09876','01a21615-5988-76db-954d-567d438c7de1');
INSERT INTO "patient_terms" VALUES('876','01a21615-5988-76db-954d-567d438c7de1');
INSERT INTO "patient_terms" VALUES('af','01a21615-5988-76db-954d-567d438c7de1');
INSERT INTO "patient_terms" VALUES('00','01a21615-5988-76db-954d-567d438c7de1');
INSERT INTO "patient_terms" VALUES('other','01a21615-5988-76db-954d-567d438c7de1');
INSERT INTO "patient_terms" VALUES('her','01a21615-5988-76db-954d-567d438c7de1');
INSERT INTO "patient_terms" VALUES('er','01a21615-5988-76db-954d-567d438c7de1');
INSERT INTO "patient_terms" VALUES('2','01a21615-5988-76db-954d-567d438c7de1');
INSERT INTO "patient_terms" VALUES('009876','01a21615-5988-76db-954d-567d438c7de1');
INSERT INTO "patient_terms" VALUES('s','01a21615-5988-76db-954d-567d438c7de1');
INSERT INTO "patient_terms" VALUES('9876','01a21615-5988-76db-954d-567d438c7de1');
CREATE TABLE patients (
            id TEXT PRIMARY KEY, number TEXT NOT NULL UNIQUE, name TEXT NOT NULL, born_on TEXT NOT NULL,
            phone TEXT NOT NULL, language TEXT NOT NULL, created_at TEXT NOT NULL
        , joined_into TEXT REFERENCES patients, reached_by TEXT NOT NULL DEFAULT ''
            CHECK (reached_by IN ('', 'own-phone', 'carer-phone', 'no-app')), reached_since TEXT, carer_phone TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "patients" VALUES('01a21615-597d-72c8-ad23-2d09e8445e80','S-1','Pia Person','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL,'',NULL,'');
INSERT INTO "patients" VALUES('01a21615-5988-76db-954d-567d438c7de1','S-2','Olaf Other','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL,'',NULL,'');
CREATE TABLE protocol_texts (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, text TEXT NOT NULL, fingerprint TEXT NOT NULL,
            saved_by TEXT NOT NULL, saved_at TEXT NOT NULL
        ) STRICT;
CREATE TABLE push_subscriptions (
            endpoint TEXT PRIMARY KEY, person TEXT NOT NULL, device_id TEXT REFERENCES devices, p256dh TEXT NOT NULL,
            auth TEXT NOT NULL, created_at TEXT NOT NULL, ended_at TEXT
        ) STRICT;
CREATE TABLE refused_events (
            id TEXT NOT NULL, eye_id TEXT, device_id TEXT, text TEXT NOT NULL, reason TEXT NOT NULL,
            received_at TEXT NOT NULL, UNIQUE (id, device_id, text)
        ) STRICT;
INSERT INTO "refused_events" VALUES('0195e5a0-0000-7000-8000-000000000003','01a21615-597d-72c8-ad23-2d0aa4b2bd30','01a21615-5991-7165-a8c0-9047e86dee9a','{"id": "0195e5a0-0000-7000-8000-000000000003", "operation": "01a21615-597d-72c8-ad23-2d0aa4b2bd30", "kind": "symptoms", "at": "2027-03-05T09:00:00Z", "offset_minutes": 60, "sequence": 3, "by": "patient", "body": {"pain": 99}}','pain: Input should be less than or equal to 10','2027-03-05T10:00:00.000000Z');
CREATE TABLE settings (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
CREATE TABLE signatures (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, fingerprint TEXT NOT NULL, signed_by TEXT NOT NULL REFERENCES staff,
            signed_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "signatures" VALUES('01a21615-5bb6-7438-9c49-e9cf0d1a7663','reviews','f544271cc2c2f9b1','01a21615-5971-74ae-a34f-276f1789a244','2027-03-05T10:00:00.000000Z');
CREATE TABLE staff (
            id TEXT PRIMARY KEY, name TEXT NOT NULL, role TEXT NOT NULL CHECK (role IN ('nurse', 'surgeon')),
            email TEXT NOT NULL UNIQUE, password_hash TEXT NOT NULL, created_at TEXT NOT NULL, left_at TEXT
        ) STRICT;
INSERT INTO "staff" VALUES('01a21615-5962-756b-85ed-b79b06139841','Nora Nurse','nurse','nurse@test.invalid','$argon2id$v=19$m=8,t=1,p=1$yE35xdiXTmFRsHOlrFlrtQ$wzQeXyBdCTJ+LIEhMVNgpv40BSPtr24sw8QS2cTVSe8','2027-03-02T14:00:00.000000Z',NULL);
INSERT INTO "staff" VALUES('01a21615-5971-74ae-a34f-276f1789a244','Sol Surgeon','surgeon','surgeon@test.invalid','$argon2id$v=19$m=8,t=1,p=1$1gk7xXPdM88st0t3DobpHA$MfR9ENyNBG7HHetcR0bKdtuMbbYbwRUx+kD9EoVd6jk','2027-03-02T14:00:00.000000Z',NULL);
CREATE TABLE tasks (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks,
            eye_id TEXT NOT NULL REFERENCES "eyes", kind TEXT NOT NULL, words TEXT NOT NULL, visit_id TEXT,
            owner TEXT REFERENCES staff, due_at TEXT NOT NULL, made_by TEXT NOT NULL REFERENCES staff, made_at TEXT NOT NULL,
            told_at TEXT, done_at TEXT, done_by TEXT REFERENCES staff, done_words TEXT NOT NULL DEFAULT '',
            given_up INTEGER NOT NULL DEFAULT 0
        , decision TEXT) STRICT;
CREATE TABLE tries (what TEXT NOT NULL, key TEXT NOT NULL, at TEXT NOT NULL) STRICT;
CREATE TABLE visits (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", name TEXT NOT NULL,
            target TEXT NOT NULL, earliest TEXT NOT NULL, latest TEXT NOT NULL, reason TEXT NOT NULL,
            recorded_by TEXT NOT NULL, recorded_at TEXT NOT NULL, replaces TEXT REFERENCES visits,
            withdrawn INTEGER NOT NULL DEFAULT 0
        , identity TEXT NOT NULL DEFAULT '', starts TEXT
            CHECK (starts IS NULL OR (starts GLOB '[0-2][0-9]:[0-5][0-9]' AND starts < '24:00')), why TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "visits" VALUES('01a21615-5984-721a-8139-8f0656f2591f','01a21615-597d-72c8-ad23-2d0aa4b2bd30','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a21615-5962-756b-85ed-b79b06139841','2027-03-02T19:00:00.000000Z',NULL,0,'01a21615-5984-721a-8139-8f0656f2591f',NULL,'');
INSERT INTO "visits" VALUES('01a21615-5985-702c-8979-facdc3a057f5','01a21615-597d-72c8-ad23-2d0aa4b2bd30','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a21615-5962-756b-85ed-b79b06139841','2027-03-02T19:00:00.000000Z',NULL,0,'01a21615-5985-702c-8979-facdc3a057f5',NULL,'');
INSERT INTO "visits" VALUES('01a21615-5989-7276-bcd9-0d682b951996','01a21615-5988-76db-954d-567ea54d41ca','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a21615-5962-756b-85ed-b79b06139841','2027-03-02T19:00:00.000000Z',NULL,0,'01a21615-5989-7276-bcd9-0d682b951996',NULL,'');
INSERT INTO "visits" VALUES('01a21615-5989-7276-bcd9-0d6951b56d03','01a21615-5988-76db-954d-567ea54d41ca','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a21615-5962-756b-85ed-b79b06139841','2027-03-02T19:00:00.000000Z',NULL,0,'01a21615-5989-7276-bcd9-0d6951b56d03',NULL,'');
CREATE TABLE visits_to_tell (
            visit_id TEXT PRIMARY KEY REFERENCES visits, made_at TEXT NOT NULL, told_at TEXT, told_by TEXT
        ) STRICT;
CREATE TABLE warning_grounds (
            number INTEGER PRIMARY KEY, warning_id TEXT NOT NULL REFERENCES warnings,
            unfounded INTEGER NOT NULL CHECK (unfounded IN (0, 1)), event_id TEXT REFERENCES events,
            note_id TEXT REFERENCES operation_records, at TEXT NOT NULL, CHECK ((event_id IS NULL) != (note_id IS NULL))
        ) STRICT;
CREATE TABLE warnings (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", callback_id TEXT NOT NULL REFERENCES callbacks,
            rule TEXT NOT NULL, worry TEXT NOT NULL, how_soon TEXT NOT NULL, raised_at TEXT NOT NULL, severity REAL NOT NULL,
            values_json TEXT NOT NULL, threshold TEXT NOT NULL, source TEXT NOT NULL, words TEXT NOT NULL,
            rulebook TEXT NOT NULL, recorded_at TEXT NOT NULL, UNIQUE (eye_id, rule, raised_at)
        ) STRICT;
INSERT INTO "warnings" VALUES('01a21615-5a0f-7724-9fe4-71b1c12d02de','01a21615-597d-72c8-ad23-2d0aa4b2bd30','01a21615-5a0f-7724-9fe4-71afc4b40783','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-5a22-7756-8baf-1b4906497dca','01a21615-597d-72c8-ad23-2d0aa4b2bd30','01a21615-5a22-7756-8baf-1b477182cfff','posture-missed','posture','this-week','2027-03-03T23:00:00.000000Z',0.75,'{"date":"2027-03-03","hours":3.0,"target_hours":12}','{"share":0.5}','CP','Only 3 of 12 hours of posturing on 2027-03-03.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-5a23-716f-b624-353525940bd6','01a21615-597d-72c8-ad23-2d0aa4b2bd30','01a21615-5a23-716f-b624-3533c444195d','silent-while-posturing','silence','this-week','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-5a33-7488-9e37-a68fb58380df','01a21615-597d-72c8-ad23-2d0aa4b2bd30','01a21615-5a23-716f-b624-3533c444195d','no-posture-entry','silence','this-week','2027-03-04T23:00:00.000000Z',1.0,'{"date":"2027-03-04"}','{}','CP','Nothing logged for posturing on 2027-03-04.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-5a77-76ef-a97d-1cee0682f07c','01a21615-597d-72c8-ad23-2d0aa4b2bd30','01a21615-5a77-76ef-a97d-1cec3b67b9e9','infection-suspected','infection','now','2027-03-05T09:00:00.000000Z',30.0,'{"pain":8,"vision":"worse"}','{"count":2,"signs":["pain>=4","vision=worse","redness=worse","discharge"]}','BOSU','Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-5a77-76ef-a97d-1cf195ca0d9e','01a21615-597d-72c8-ad23-2d0aa4b2bd30','01a21615-5a77-76ef-a97d-1cefe6ffad6a','severe-pain','pressure','now','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=7"]}','VRS','Severe pain (8 of 10): pressure and infection must be ruled out.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-5a77-76ef-a97d-1cf418dd0ed6','01a21615-597d-72c8-ad23-2d0aa4b2bd30','01a21615-5a77-76ef-a97d-1cf28c4c6f1f','curtain','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"curtain":true,"pain":8}','{"count":1,"signs":["curtain"]}','RD14','A curtain or shadow that does not move with the bubble: new detachment until shown otherwise.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-5a77-76ef-a97d-1cf62cfbba46','01a21615-597d-72c8-ad23-2d0aa4b2bd30','01a21615-5a77-76ef-a97d-1cefe6ffad6a','pain','pressure','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=5"]}','VRS','Pain of 8 of 10, beyond what simple painkillers usually hold.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-5a78-7465-a8ab-5f0714a40829','01a21615-597d-72c8-ad23-2d0aa4b2bd30','01a21615-5a77-76ef-a97d-1cf28c4c6f1f','vision-worse','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','Hol09','The patient says that the vision fell.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-5a7c-75f9-b934-6ec699f7dff6','01a21615-597d-72c8-ad23-2d0aa4b2bd30','01a21615-5a77-76ef-a97d-1cf28c4c6f1f','vision-said-worse','retina','this-week','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','Hol09','The patient said that the vision fell. Ask again, whatever the second look said.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-5b0c-7221-8fe6-8b45c157a643','01a21615-597d-72c8-ad23-2d0aa4b2bd30','01a21615-5a77-76ef-a97d-1cefe6ffad6a','pressure-severe','pressure','now','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":40}','Bern12','Pressure 41 mmHg, at or above 40.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-5b14-70af-8f4c-5a2b6c9143b1','01a21615-597d-72c8-ad23-2d0aa4b2bd30','01a21615-5a77-76ef-a97d-1cefe6ffad6a','pressure-spike','pressure','today','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":30}','Bern12','Pressure 41 mmHg, at or above 30.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-5b15-76a4-ab15-f141d3d84441','01a21615-597d-72c8-ad23-2d0aa4b2bd30','01a21615-5a77-76ef-a97d-1cefe6ffad6a','pressure-raised','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":24}','NICE','Pressure 41 mmHg, at or above 24.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-5b15-76a4-ab15-f143d4204b6b','01a21615-597d-72c8-ad23-2d0aa4b2bd30','01a21615-5a77-76ef-a97d-1cefe6ffad6a','pressure-rise','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"baseline_mmhg":15,"instrument":"applanation","iop_mmhg":41.0,"pain":null,"risen_mmhg":26.0}','{"mmhg":24,"rise_mmhg":10}','LOH19','Pressure 41 mmHg, 26 above this eye’s own 15.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-5b15-76a4-ab15-f1459a54c6ba','01a21615-597d-72c8-ad23-2d0aa4b2bd30','01a21615-5a77-76ef-a97d-1cefe6ffad6a','pressure-rising','pressure','this-week','2027-03-05T10:00:00.000000Z',26.0,'{"instrument":"applanation","iop_mmhg":41.0,"moved_mmhg":26.0,"pain":null,"usual_mmhg":15}','{"by_mmhg":5,"direction":"up","mmhg":18}','SIO','Pressure 41 mmHg, 26 above what is usual for this eye (15).','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-5b44-7174-a00d-aa018f820db4','01a21615-5988-76db-954d-567ea54d41ca','01a21615-5b44-7174-a00d-a9ff8fc8e131','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-5b48-774a-b5b3-92bec229ae8e','01a21615-5988-76db-954d-567ea54d41ca','01a21615-5b48-774a-b5b3-92bc5c5b76cf','no-posture-entry','silence','this-week','2027-03-03T23:00:00.000000Z',1.0,'{"date":"2027-03-03"}','{}','CP','Nothing logged for posturing on 2027-03-03.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-5b49-7230-835f-cd2bed389a9a','01a21615-5988-76db-954d-567ea54d41ca','01a21615-5b48-774a-b5b3-92bc5c5b76cf','silent-while-posturing','silence','this-week','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
CREATE UNIQUE INDEX "idx__sqlite_migrations_migration_set_name"
    ON "_sqlite_migrations" ("migration_set", "name");
CREATE INDEX devices_of_patient ON devices (patient_id);
CREATE INDEX tries_by_key ON tries (what, key, at);
CREATE INDEX visits_by_date ON visits (target);
CREATE UNIQUE INDEX visits_replaced_once ON visits (replaces);
CREATE INDEX events_corrected ON events (corrects);
CREATE UNIQUE INDEX one_open_callback ON callbacks (eye_id, worry) WHERE state != 'settled';
CREATE INDEX callbacks_open ON callbacks (state, due_at);
CREATE INDEX steps_of_callback ON callback_steps (callback_id, at);
CREATE INDEX warnings_of_callback ON warnings (callback_id);
CREATE TRIGGER callback_steps_keeps_update BEFORE UPDATE ON callback_steps BEGIN SELECT RAISE(ABORT, 'callback_steps is append-only: record a correction instead'); END;
CREATE TRIGGER callback_steps_keeps_delete BEFORE DELETE ON callback_steps BEGIN SELECT RAISE(ABORT, 'callback_steps is append-only: record a correction instead'); END;
CREATE TRIGGER protocol_texts_keeps_update BEFORE UPDATE ON protocol_texts BEGIN SELECT RAISE(ABORT, 'protocol_texts is append-only: record a correction instead'); END;
CREATE TRIGGER protocol_texts_keeps_delete BEFORE DELETE ON protocol_texts BEGIN SELECT RAISE(ABORT, 'protocol_texts is append-only: record a correction instead'); END;
CREATE TRIGGER signatures_keeps_update BEFORE UPDATE ON signatures BEGIN SELECT RAISE(ABORT, 'signatures is append-only: record a correction instead'); END;
CREATE TRIGGER signatures_keeps_delete BEFORE DELETE ON signatures BEGIN SELECT RAISE(ABORT, 'signatures is append-only: record a correction instead'); END;
CREATE TRIGGER audit_keeps_update BEFORE UPDATE ON audit BEGIN SELECT RAISE(ABORT, 'audit is append-only: record a correction instead'); END;
CREATE TRIGGER audit_keeps_delete BEFORE DELETE ON audit BEGIN SELECT RAISE(ABORT, 'audit is append-only: record a correction instead'); END;
CREATE INDEX subscriptions_of_person ON push_subscriptions (person);
CREATE INDEX messages_open ON messages (state, next_try_at);
CREATE INDEX messages_of_person ON messages (person, made_at);
CREATE INDEX tasks_of_callback ON tasks (callback_id, done_at);
CREATE INDEX visits_by_identity ON visits (identity);
CREATE TRIGGER patients_bounds_birth BEFORE INSERT ON patients WHEN NEW.born_on NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]' OR date(NEW.born_on, '+0 days') IS NOT NEW.born_on OR NEW.born_on NOT BETWEEN '1900-01-01' AND date(NEW.created_at, '+1 day') BEGIN SELECT RAISE(ABORT, 'patients: born between 1900 and today'); END;
CREATE TRIGGER patients_bounds_corrected_birth BEFORE UPDATE OF born_on ON patients WHEN NEW.born_on NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]' OR date(NEW.born_on, '+0 days') IS NOT NEW.born_on OR NEW.born_on NOT BETWEEN '1900-01-01' AND '2200-12-31' BEGIN SELECT RAISE(ABORT, 'patients: born between 1900 and today'); END;
CREATE INDEX records_of_operation ON operation_records (operation_id, recorded_at);
CREATE INDEX operations_of_eye ON operations (eye_id);
CREATE INDEX events_of_eye ON events (eye_id, at);
CREATE INDEX visits_of_eye ON visits (eye_id);
CREATE INDEX looks_of_eye ON looks (eye_id, at);
CREATE UNIQUE INDEX eyes_of_patient ON eyes (patient_id, side);
CREATE INDEX follow_ups_of_eye ON follow_ups (eye_id, at);
CREATE INDEX patient_by_term ON patient_terms (term, patient_id);
CREATE INDEX terms_of_patient ON patient_terms (patient_id);
CREATE INDEX patients_by_birth ON patients (born_on);
CREATE TRIGGER follow_ups_keeps_update BEFORE UPDATE ON follow_ups BEGIN SELECT RAISE(ABORT, 'follow_ups is append-only: record a correction instead'); END;
CREATE TRIGGER follow_ups_keeps_delete BEFORE DELETE ON follow_ups BEGIN SELECT RAISE(ABORT, 'follow_ups is append-only: record a correction instead'); END;
CREATE TRIGGER events_bounds_event BEFORE INSERT ON events WHEN NEW.at NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]T[012][0-9]:[0-5][0-9]:[0-5][0-9].[0-9][0-9][0-9][0-9][0-9][0-9]Z' OR date(NEW.at, '+0 days') IS NOT substr(NEW.at, 1, 10) OR NEW.received_at NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]T[012][0-9]:[0-5][0-9]:[0-5][0-9].[0-9][0-9][0-9][0-9][0-9][0-9]Z' OR date(NEW.received_at, '+0 days') IS NOT substr(NEW.received_at, 1, 10) OR (NEW.device_at IS NOT NULL AND (NEW.device_at NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]T[012][0-9]:[0-5][0-9]:[0-5][0-9].[0-9][0-9][0-9][0-9][0-9][0-9]Z' OR date(NEW.device_at, '+0 days') IS NOT substr(NEW.device_at, 1, 10))) OR NEW.at < '1989-12-31' OR julianday(NEW.at) > julianday(NEW.received_at) + 2 OR NOT json_valid(NEW.body) OR length(NEW.body) > 40000 BEGIN SELECT RAISE(ABORT, 'events: an event lies between 1990 and its arrival and has a readable body'); END;
CREATE TRIGGER events_keeps_delete BEFORE DELETE ON events BEGIN SELECT RAISE(ABORT, 'events is append-only: record a correction instead'); END;
CREATE TRIGGER events_keeps_update BEFORE UPDATE ON events BEGIN SELECT RAISE(ABORT, 'events is append-only: record a correction instead'); END;
CREATE TRIGGER looks_keeps_delete BEFORE DELETE ON looks BEGIN SELECT RAISE(ABORT, 'looks is append-only: record a correction instead'); END;
CREATE TRIGGER looks_keeps_update BEFORE UPDATE ON looks BEGIN SELECT RAISE(ABORT, 'looks is append-only: record a correction instead'); END;
CREATE TRIGGER operation_records_bounds_surgery BEFORE INSERT ON operation_records WHEN NEW.operated_at NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]T[012][0-9]:[0-5][0-9]:[0-5][0-9].[0-9][0-9][0-9][0-9][0-9][0-9]Z' OR date(NEW.operated_at, '+0 days') IS NOT substr(NEW.operated_at, 1, 10) OR NEW.recorded_at NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]T[012][0-9]:[0-5][0-9]:[0-5][0-9].[0-9][0-9][0-9][0-9][0-9][0-9]Z' OR date(NEW.recorded_at, '+0 days') IS NOT substr(NEW.recorded_at, 1, 10) OR NEW.operated_at < '1989-12-31' OR julianday(NEW.operated_at) > julianday(NEW.recorded_at) + 1 OR NOT json_valid(NEW.body) BEGIN SELECT RAISE(ABORT, 'operation_records: surgery lies between 1990 and now'); END;
CREATE TRIGGER operation_records_keeps_delete BEFORE DELETE ON operation_records BEGIN SELECT RAISE(ABORT, 'operation_records is append-only: record a correction instead'); END;
CREATE TRIGGER operation_records_keeps_update BEFORE UPDATE ON operation_records BEGIN SELECT RAISE(ABORT, 'operation_records is append-only: record a correction instead'); END;
CREATE TRIGGER refused_events_keeps_delete BEFORE DELETE ON refused_events BEGIN SELECT RAISE(ABORT, 'refused_events is append-only: record a correction instead'); END;
CREATE TRIGGER refused_events_keeps_update BEFORE UPDATE ON refused_events BEGIN SELECT RAISE(ABORT, 'refused_events is append-only: record a correction instead'); END;
CREATE TRIGGER visits_keeps_delete BEFORE DELETE ON visits BEGIN SELECT RAISE(ABORT, 'visits is append-only: record a correction instead'); END;
CREATE TRIGGER visits_keeps_update BEFORE UPDATE ON visits
        BEGIN SELECT RAISE(ABORT, 'visits is append-only: record a correction instead'); END;
CREATE TRIGGER warnings_keeps_delete BEFORE DELETE ON warnings BEGIN SELECT RAISE(ABORT, 'warnings is append-only: record a correction instead'); END;
CREATE TRIGGER warnings_keeps_update BEFORE UPDATE ON warnings BEGIN SELECT RAISE(ABORT, 'warnings is append-only: record a correction instead'); END;
CREATE TRIGGER visits_bounds_visit BEFORE INSERT ON visits WHEN
            NEW.target NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]' OR date(NEW.target, '+0 days') IS NOT NEW.target OR NEW.earliest NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]' OR date(NEW.earliest, '+0 days') IS NOT NEW.earliest OR NEW.latest NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]' OR date(NEW.latest, '+0 days') IS NOT NEW.latest
            OR date(NEW.recorded_at, '+0 days') IS NOT substr(NEW.recorded_at, 1, 10)
            OR min(NEW.target, NEW.earliest, NEW.latest) < date((SELECT min(r.operated_at) FROM operation_records r JOIN operations o ON o.id = r.operation_id WHERE o.eye_id = NEW.eye_id), '-1 day')
            OR max(NEW.target, NEW.earliest, NEW.latest) > max(
                date((SELECT max(r.operated_at) FROM operation_records r JOIN operations o ON o.id = r.operation_id WHERE o.eye_id = NEW.eye_id), '+3 years', '+1 day'),
                date(NEW.recorded_at, '+1 year', '+1 day'))
        BEGIN SELECT RAISE(ABORT, 'visits: visits lie within three years after surgery'); END;
CREATE INDEX grounds_of_warning ON warning_grounds (warning_id, number);
CREATE TRIGGER warning_grounds_keeps_update BEFORE UPDATE ON warning_grounds BEGIN SELECT RAISE(ABORT, 'warning_grounds is append-only: record a correction instead'); END;
CREATE TRIGGER warning_grounds_keeps_delete BEFORE DELETE ON warning_grounds BEGIN SELECT RAISE(ABORT, 'warning_grounds is append-only: record a correction instead'); END;
CREATE INDEX eyes_joined ON eyes (joined_into) WHERE joined_into IS NOT NULL;
CREATE INDEX patients_joined ON patients (joined_into) WHERE joined_into IS NOT NULL;
CREATE INDEX tasks_of_decision ON tasks (decision) WHERE decision IS NOT NULL;
CREATE INDEX closures_of_day ON closures (day, number);
CREATE TRIGGER closures_keeps_update BEFORE UPDATE ON closures BEGIN SELECT RAISE(ABORT, 'closures is append-only: record a correction instead'); END;
CREATE TRIGGER closures_keeps_delete BEFORE DELETE ON closures BEGIN SELECT RAISE(ABORT, 'closures is append-only: record a correction instead'); END;
COMMIT;
