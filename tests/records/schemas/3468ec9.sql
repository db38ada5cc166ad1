BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'followup','m001_people','2026-11-26 04:21:25.402203+00:00');
INSERT INTO "_sqlite_migrations" VALUES(2,'followup','m002_eyes','2026-11-26 04:21:25.406833+00:00');
INSERT INTO "_sqlite_migrations" VALUES(3,'followup','m003_worries','2026-11-26 04:21:25.423123+00:00');
INSERT INTO "_sqlite_migrations" VALUES(4,'followup','m004_audit','2026-11-26 04:21:25.433509+00:00');
INSERT INTO "_sqlite_migrations" VALUES(5,'followup','m005_messages','2026-11-26 04:21:25.437836+00:00');
INSERT INTO "_sqlite_migrations" VALUES(6,'followup','m006_repair','2026-11-26 04:21:25.440630+00:00');
INSERT INTO "_sqlite_migrations" VALUES(7,'followup','m007_tasks','2026-11-26 04:21:25.446556+00:00');
INSERT INTO "_sqlite_migrations" VALUES(8,'followup','m008_visit_identities','2026-11-26 04:21:25.449586+00:00');
INSERT INTO "_sqlite_migrations" VALUES(9,'followup','m009_watch','2026-11-26 04:21:25.456948+00:00');
INSERT INTO "_sqlite_migrations" VALUES(10,'followup','m011_bounds','2026-11-26 04:21:25.460949+00:00');
INSERT INTO "_sqlite_migrations" VALUES(11,'followup','m020_two_eyes','2026-11-26 04:21:25.502734+00:00');
INSERT INTO "_sqlite_migrations" VALUES(12,'followup','m021_grounds_of_warnings','2026-11-26 04:21:25.509729+00:00');
CREATE TABLE audit (
            number INTEGER PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, action TEXT NOT NULL, subject TEXT NOT NULL,
            detail TEXT NOT NULL, previous TEXT NOT NULL, hash TEXT NOT NULL
        ) STRICT;
INSERT INTO "audit" VALUES(1,'2027-03-02T14:00:00.000000Z','command line','staff added','01a21616-3b88-72a9-a89c-510a45dab5b0','{"role":"nurse"}','0000000000000000000000000000000000000000000000000000000000000000','4f42f7ccfcae4736767a8c4f636d9b3ba13ce13fd74852bd27209eb28d107653');
INSERT INTO "audit" VALUES(2,'2027-03-02T14:00:00.000000Z','command line','staff added','01a21616-3b90-727e-8a51-f5e6c7509274','{"role":"surgeon"}','4f42f7ccfcae4736767a8c4f636d9b3ba13ce13fd74852bd27209eb28d107653','84ab42f55d6a69c7816d16e8042c01e235703bed99359ec1ddcc315005f7fdb2');
INSERT INTO "audit" VALUES(3,'2027-03-02T19:00:00.000000Z','nurse:01a21616-3b88-72a9-a89c-510a45dab5b0','enrolment code','01a21616-3b99-7642-9300-9d4a8d55d614','null','84ab42f55d6a69c7816d16e8042c01e235703bed99359ec1ddcc315005f7fdb2','5498e1378d7c85cfa4f8b8b7347dad50ab5f9427ba2ce740e52256ca262b7296');
INSERT INTO "audit" VALUES(4,'2027-03-02T19:00:00.000000Z','nurse:01a21616-3b88-72a9-a89c-510a45dab5b0','discharge','01a21616-3b99-7642-9300-9d4bc0cbb1c0','{"agent":"c2f6","eye":"right"}','5498e1378d7c85cfa4f8b8b7347dad50ab5f9427ba2ce740e52256ca262b7296','f8b8f1fd388a0b88ca2e1c0617e39015847320cd3a6b7f6fab54c7de4dc8bcbe');
INSERT INTO "audit" VALUES(5,'2027-03-02T19:00:00.000000Z','nurse:01a21616-3b88-72a9-a89c-510a45dab5b0','enrolment code','01a21616-3ba9-765d-8221-e8a732847e8a','null','f8b8f1fd388a0b88ca2e1c0617e39015847320cd3a6b7f6fab54c7de4dc8bcbe','0ed6eb04d66776c46af03dee69d216c0bf02f52bf8db90a61d04aa48b11b9b06');
INSERT INTO "audit" VALUES(6,'2027-03-02T19:00:00.000000Z','nurse:01a21616-3b88-72a9-a89c-510a45dab5b0','discharge','01a21616-3ba9-765d-8221-e8a82df6792b','{"agent":"silicone-oil","eye":"right"}','0ed6eb04d66776c46af03dee69d216c0bf02f52bf8db90a61d04aa48b11b9b06','12e054bb815a56c898dd02f2bb7c68f263f355f755142c1c67786aacf314e249');
INSERT INTO "audit" VALUES(7,'2027-03-02T20:00:00.000000Z','patient:01a21616-3bb0-71f5-84b1-2478340e1c0d','device enrolled','01a21616-3b99-7642-9300-9d4a8d55d614','null','12e054bb815a56c898dd02f2bb7c68f263f355f755142c1c67786aacf314e249','74ec36c108bf49b67197b8e5d43ac2930dd04ded52838b703ec4d6eec7b8b4e5');
INSERT INTO "audit" VALUES(8,'2027-03-05T10:00:00.000000Z','patient:01a21616-3bb0-71f5-84b1-2478340e1c0d','event posture','01a21616-3b99-7642-9300-9d4bc0cbb1c0','{"id":"0195e5a0-0000-7000-8000-000000000001"}','74ec36c108bf49b67197b8e5d43ac2930dd04ded52838b703ec4d6eec7b8b4e5','292077bcfb903aa05bedd37fda9b31995598d6c730d4f5d6fb8a67949591a442');
INSERT INTO "audit" VALUES(9,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3b99-7642-9300-9d4bc0cbb1c0','{"how_soon":"today","rule":"missed-early-visit"}','292077bcfb903aa05bedd37fda9b31995598d6c730d4f5d6fb8a67949591a442','0275963bc952f1077a1efd69c6eabe75010ea222346ac0bdcb539f7e0af7a2ba');
INSERT INTO "audit" VALUES(10,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3b99-7642-9300-9d4bc0cbb1c0','{"how_soon":"today","rule":"posture-missed"}','0275963bc952f1077a1efd69c6eabe75010ea222346ac0bdcb539f7e0af7a2ba','50b590b216d3c18a16a014238863b3e8c6d0c8c88fa221908743ec5e37809b3b');
INSERT INTO "audit" VALUES(11,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3b99-7642-9300-9d4bc0cbb1c0','{"how_soon":"today","rule":"silent-while-posturing"}','50b590b216d3c18a16a014238863b3e8c6d0c8c88fa221908743ec5e37809b3b','26a8c5a983c7b55ff35332793fd601d2d399dccae01e6c809d11e41616321d35');
INSERT INTO "audit" VALUES(12,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3b99-7642-9300-9d4bc0cbb1c0','{"how_soon":"today","rule":"no-posture-entry"}','26a8c5a983c7b55ff35332793fd601d2d399dccae01e6c809d11e41616321d35','cb9e4288232f2b29897ab7915f857699f2dbf4dadd3220736fd75f5fa1208abe');
INSERT INTO "audit" VALUES(13,'2027-03-05T10:00:00.000000Z','patient:01a21616-3bb0-71f5-84b1-2478340e1c0d','event symptoms','01a21616-3b99-7642-9300-9d4bc0cbb1c0','{"id":"0195e5a0-0000-7000-8000-000000000002"}','cb9e4288232f2b29897ab7915f857699f2dbf4dadd3220736fd75f5fa1208abe','f88b48447e4e9b22a4732ef4e1ae64488802c3f27f50f8ea04e9f35952118c21');
INSERT INTO "audit" VALUES(14,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3b99-7642-9300-9d4bc0cbb1c0','{"how_soon":"now","rule":"infection-suspected"}','f88b48447e4e9b22a4732ef4e1ae64488802c3f27f50f8ea04e9f35952118c21','bcfd5ee5aa7779625c180a90b6be21f5021eb4c2cf3ffbb49a0b2da94468977f');
INSERT INTO "audit" VALUES(15,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3b99-7642-9300-9d4bc0cbb1c0','{"how_soon":"now","rule":"severe-pain"}','bcfd5ee5aa7779625c180a90b6be21f5021eb4c2cf3ffbb49a0b2da94468977f','2eb0f69b309f4cc167ddfc7d20d595b49c35a41e81bb97a84cbacceebc8bb0e3');
INSERT INTO "audit" VALUES(16,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3b99-7642-9300-9d4bc0cbb1c0','{"how_soon":"today","rule":"curtain"}','2eb0f69b309f4cc167ddfc7d20d595b49c35a41e81bb97a84cbacceebc8bb0e3','18eb4c78677ec16baba5ee643e99c14f531f6d394ad13ab40c9e85566bf5acf6');
INSERT INTO "audit" VALUES(17,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3b99-7642-9300-9d4bc0cbb1c0','{"how_soon":"today","rule":"pain"}','18eb4c78677ec16baba5ee643e99c14f531f6d394ad13ab40c9e85566bf5acf6','fd4d3c3a37d790ab53a4da762fc85cba2f67614a8f1db5c190ba128dcdc2765e');
INSERT INTO "audit" VALUES(18,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3b99-7642-9300-9d4bc0cbb1c0','{"how_soon":"today","rule":"vision-worse"}','fd4d3c3a37d790ab53a4da762fc85cba2f67614a8f1db5c190ba128dcdc2765e','5a1a3e67d3ae5a98560cb74e7e20609b8144543fc1d5fca255082738289aaea9');
INSERT INTO "audit" VALUES(19,'2027-03-05T10:00:00.000000Z','nurse:01a21616-3b88-72a9-a89c-510a45dab5b0','event measures','01a21616-3b99-7642-9300-9d4bc0cbb1c0','{"id":"01a21616-3c11-736c-8537-ed56a5a066e7"}','5a1a3e67d3ae5a98560cb74e7e20609b8144543fc1d5fca255082738289aaea9','88dae58d45341f18a55adf001ae6236e77d51ffe5d23982fcfff063e451227d2');
INSERT INTO "audit" VALUES(20,'2027-03-05T10:00:00.000000Z','nurse:01a21616-3b88-72a9-a89c-510a45dab5b0','event seen','01a21616-3b99-7642-9300-9d4bc0cbb1c0','{"id":"01a21616-3c12-74a2-90a4-c57b8f6c5456"}','88dae58d45341f18a55adf001ae6236e77d51ffe5d23982fcfff063e451227d2','c1cbf301f2bbc4a22ccaf25fd25df8a52fc0067212c684c9abd49c3887c1e06b');
INSERT INTO "audit" VALUES(21,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3b99-7642-9300-9d4bc0cbb1c0','{"how_soon":"now","rule":"pressure-severe"}','c1cbf301f2bbc4a22ccaf25fd25df8a52fc0067212c684c9abd49c3887c1e06b','2b7878373d7de6ebf13bee5aa9d8dde8f0c12326bddbdb6454edddd96c28c0da');
INSERT INTO "audit" VALUES(22,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3b99-7642-9300-9d4bc0cbb1c0','{"how_soon":"today","rule":"pressure-spike"}','2b7878373d7de6ebf13bee5aa9d8dde8f0c12326bddbdb6454edddd96c28c0da','799a240aad25062ad0fbfe4a8e4b6745613243b9e9aba9f50bb8f0b96cdf14f7');
INSERT INTO "audit" VALUES(23,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3b99-7642-9300-9d4bc0cbb1c0','{"how_soon":"this-week","rule":"pressure-raised"}','799a240aad25062ad0fbfe4a8e4b6745613243b9e9aba9f50bb8f0b96cdf14f7','0133502f5edd448ed0d624e8240e73d463269d0978ad6cb7b4fa04de8399db2d');
INSERT INTO "audit" VALUES(24,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3b99-7642-9300-9d4bc0cbb1c0','{"how_soon":"this-week","rule":"pressure-rise"}','0133502f5edd448ed0d624e8240e73d463269d0978ad6cb7b4fa04de8399db2d','f7a5fbedc18cb3e5730293dbd41b2262bd44c3e7f25dcf72197357a5c24510c4');
INSERT INTO "audit" VALUES(25,'2027-03-05T10:00:00.000000Z','nurse:01a21616-3b88-72a9-a89c-510a45dab5b0','event measures','01a21616-3ba9-765d-8221-e8a82df6792b','{"id":"01a21616-3c35-75d3-80b3-26c772da9396"}','f7a5fbedc18cb3e5730293dbd41b2262bd44c3e7f25dcf72197357a5c24510c4','33af0066dae7946d3cc41986c409a0b3e9f22c4cce0bfae594b97845575381de');
INSERT INTO "audit" VALUES(26,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3ba9-765d-8221-e8a82df6792b','{"how_soon":"today","rule":"missed-early-visit"}','33af0066dae7946d3cc41986c409a0b3e9f22c4cce0bfae594b97845575381de','b53066ab897b0ae014d9b730c7e644bcf93e13024c8a771dc893c4beea23ff73');
INSERT INTO "audit" VALUES(27,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3ba9-765d-8221-e8a82df6792b','{"how_soon":"today","rule":"no-posture-entry"}','b53066ab897b0ae014d9b730c7e644bcf93e13024c8a771dc893c4beea23ff73','186bc80bb5ad7733c89829599f59014f91fa75b878010317af9ce4dcda89950c');
INSERT INTO "audit" VALUES(28,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3ba9-765d-8221-e8a82df6792b','{"how_soon":"today","rule":"silent-while-posturing"}','186bc80bb5ad7733c89829599f59014f91fa75b878010317af9ce4dcda89950c','8c31328cfdb5d8d643988b45d6f447e09ccc7d844d5affd7047d61bad02f8d50');
INSERT INTO "audit" VALUES(29,'2027-03-05T10:00:00.000000Z','nurse:01a21616-3b88-72a9-a89c-510a45dab5b0','callback claimed','01a21616-3bf2-75bd-83e9-3048e573ff66','null','8c31328cfdb5d8d643988b45d6f447e09ccc7d844d5affd7047d61bad02f8d50','516c78ac9ab920b6f06af2fb4ebdcbcd39153a73db3240454618335c0495a543');
INSERT INTO "audit" VALUES(30,'2027-03-05T10:00:00.000000Z','nurse:01a21616-3b88-72a9-a89c-510a45dab5b0','callback attempt','01a21616-3bf2-75bd-83e9-3048e573ff66','{"reached":true}','516c78ac9ab920b6f06af2fb4ebdcbcd39153a73db3240454618335c0495a543','7b34ae802f8df050095e20636a5fda052f2de510eacb2a672ec92634dcd0aba0');
INSERT INTO "audit" VALUES(31,'2027-03-05T10:00:00.000000Z','nurse:01a21616-3b88-72a9-a89c-510a45dab5b0','extra visit','01a21616-3b99-7642-9300-9d4bc0cbb1c0','{"on":"2027-03-05"}','7b34ae802f8df050095e20636a5fda052f2de510eacb2a672ec92634dcd0aba0','833439e5c636e0df4e15b7ced87bef448600a91414d318bc1864bb06f68bd379');
INSERT INTO "audit" VALUES(32,'2027-03-05T10:00:00.000000Z','nurse:01a21616-3b88-72a9-a89c-510a45dab5b0','callback decided','01a21616-3bf2-75bd-83e9-3048e573ff66','{"outcome":"same-day"}','833439e5c636e0df4e15b7ced87bef448600a91414d318bc1864bb06f68bd379','ba7ef986730d1ffc1fe90ab63c3d516eb71d4c1d0ac4b961467d7c2a4fe27b83');
INSERT INTO "audit" VALUES(33,'2027-03-05T10:00:00.000000Z','surgeon:01a21616-3b90-727e-8a51-f5e6c7509274','protocol signed','reviews','{"fingerprint":"8409d8bc694c76d2"}','ba7ef986730d1ffc1fe90ab63c3d516eb71d4c1d0ac4b961467d7c2a4fe27b83','0e2a412a41a80df2c25c0b57a316f834bc6963c778956e91ab536dc9b3f763fe');
CREATE TABLE callback_steps (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks, at TEXT NOT NULL, who TEXT NOT NULL,
            step TEXT NOT NULL, detail TEXT NOT NULL
        ) STRICT;
INSERT INTO "callback_steps" VALUES('01a21616-3bd9-705d-bf64-12aee56f2bfa','01a21616-3bd9-705d-bf64-12ad9da71827','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a21616-3bda-73e0-940c-4a3bdce84d17','01a21616-3bda-73e0-940c-4a3ac700f1e4','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"posture-missed","words":"Only 3 of 12 hours of posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a21616-3bda-73e0-940c-4a3e112239d3','01a21616-3bda-73e0-940c-4a3d20986ce5','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a21616-3bda-73e0-940c-4a40fea434af','01a21616-3bda-73e0-940c-4a3d20986ce5','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-04."}');
INSERT INTO "callback_steps" VALUES('01a21616-3bf2-75bd-83e9-3049f1df0001','01a21616-3bf2-75bd-83e9-3048e573ff66','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"infection-suspected","words":"Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five."}');
INSERT INTO "callback_steps" VALUES('01a21616-3bf2-75bd-83e9-304cc30940c0','01a21616-3bf2-75bd-83e9-304b6565519f','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"severe-pain","words":"Severe pain (8 of 10): pressure and infection must be ruled out."}');
INSERT INTO "callback_steps" VALUES('01a21616-3bf2-75bd-83e9-304f8ea92055','01a21616-3bf2-75bd-83e9-304e7d4e80a1','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"curtain","words":"A curtain or shadow that does not move with the bubble: new detachment until shown otherwise."}');
INSERT INTO "callback_steps" VALUES('01a21616-3bf3-7344-b69e-b0520fedeb2a','01a21616-3bf2-75bd-83e9-304b6565519f','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pain","words":"Pain of 8 of 10, beyond what simple painkillers usually hold."}');
INSERT INTO "callback_steps" VALUES('01a21616-3bf3-7344-b69e-b054d3528c31','01a21616-3bf2-75bd-83e9-304e7d4e80a1','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"vision-worse","words":"The patient says that the vision fell."}');
INSERT INTO "callback_steps" VALUES('01a21616-3c25-7458-97bb-f5e8a087f5f0','01a21616-3bf2-75bd-83e9-304b6565519f','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"now","rule":"pressure-severe","words":"Pressure 41 mmHg, at or above 40."}');
INSERT INTO "callback_steps" VALUES('01a21616-3c25-7458-97bb-f5ea6f2aaff1','01a21616-3bf2-75bd-83e9-304b6565519f','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pressure-spike","words":"Pressure 41 mmHg, at or above 30."}');
INSERT INTO "callback_steps" VALUES('01a21616-3c25-7458-97bb-f5ec01c8e549','01a21616-3bf2-75bd-83e9-304b6565519f','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-raised","words":"Pressure 41 mmHg, at or above 24."}');
INSERT INTO "callback_steps" VALUES('01a21616-3c26-71b4-b15b-f3039159a421','01a21616-3bf2-75bd-83e9-304b6565519f','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rise","words":"Pressure 41 mmHg, 26 above this eye’s own 15."}');
INSERT INTO "callback_steps" VALUES('01a21616-3c3d-74b7-bb97-dc3bbcc5c6e6','01a21616-3c3d-74b7-bb97-dc3af5821d63','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a21616-3c3d-74b7-bb97-dc3ef49dc28b','01a21616-3c3d-74b7-bb97-dc3dd10dae70','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a21616-3c3d-74b7-bb97-dc40e919bdc8','01a21616-3c3d-74b7-bb97-dc3dd10dae70','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a21616-3c4d-7135-8293-65638686eeaf','01a21616-3bf2-75bd-83e9-3048e573ff66','2027-03-05T10:00:00.000000Z','nurse:01a21616-3b88-72a9-a89c-510a45dab5b0','claimed','{"by":"Nora Nurse"}');
INSERT INTO "callback_steps" VALUES('01a21616-3d01-741a-b801-897ea1d8dc74','01a21616-3bf2-75bd-83e9-3048e573ff66','2027-03-05T10:00:00.000000Z','nurse:01a21616-3b88-72a9-a89c-510a45dab5b0','reached','{"by":"Nora Nurse","next_try":null,"spoke_to":"patient","words":"comes at once"}');
INSERT INTO "callback_steps" VALUES('01a21616-3d07-7755-baa9-7a8f90ac6d7c','01a21616-3bf2-75bd-83e9-3048e573ff66','2027-03-05T10:00:00.000000Z','nurse:01a21616-3b88-72a9-a89c-510a45dab5b0','decided','{"by":"Nora Nurse","outcome":"same-day","task":"01a21616-3d07-7755-baa9-7a8e9973a932","words":"comes at two"}');
CREATE TABLE callbacks (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", worry TEXT NOT NULL,
            how_soon TEXT NOT NULL CHECK (how_soon IN ('now', 'today', 'this-week')),
            opened_at TEXT NOT NULL, due_at TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('waiting', 'claimed', 'settled')),
            claimed_by TEXT REFERENCES staff, claimed_at TEXT, settled_at TEXT, outcome TEXT,
            level INTEGER NOT NULL DEFAULT 0
        , settled_by TEXT REFERENCES staff, next_try_at TEXT, moved_up INTEGER NOT NULL DEFAULT 0) STRICT;
INSERT INTO "callbacks" VALUES('01a21616-3bd9-705d-bf64-12ad9da71827','01a21616-3b99-7642-9300-9d4bc0cbb1c0','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-3bda-73e0-940c-4a3ac700f1e4','01a21616-3b99-7642-9300-9d4bc0cbb1c0','posture','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-3bda-73e0-940c-4a3d20986ce5','01a21616-3b99-7642-9300-9d4bc0cbb1c0','silence','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-3bf2-75bd-83e9-3048e573ff66','01a21616-3b99-7642-9300-9d4bc0cbb1c0','infection','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','claimed','01a21616-3b88-72a9-a89c-510a45dab5b0','2027-03-05T10:00:00.000000Z',NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-3bf2-75bd-83e9-304b6565519f','01a21616-3b99-7642-9300-9d4bc0cbb1c0','pressure','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-3bf2-75bd-83e9-304e7d4e80a1','01a21616-3b99-7642-9300-9d4bc0cbb1c0','retina','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-3c3d-74b7-bb97-dc3af5821d63','01a21616-3ba9-765d-8221-e8a82df6792b','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-3c3d-74b7-bb97-dc3dd10dae70','01a21616-3ba9-765d-8221-e8a82df6792b','silence','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
CREATE TABLE devices (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, token_hash TEXT NOT NULL UNIQUE,
            used_by TEXT NOT NULL, enrolled_at TEXT NOT NULL, heard_at TEXT NOT NULL, revoked_at TEXT, revoked_by TEXT
        ) STRICT;
INSERT INTO "devices" VALUES('01a21616-3bb0-71f5-84b1-2478340e1c0d','01a21616-3b99-7642-9300-9d4a8d55d614','9d8d211451d510ee12ca4c4304c5e224cfea131e488b0670f6e948153ca9646d','patient','2027-03-02T20:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,NULL);
CREATE TABLE enrolments (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, code_hash TEXT NOT NULL UNIQUE,
            created_by TEXT NOT NULL, created_at TEXT NOT NULL, expires_at TEXT NOT NULL,
            used_at TEXT, wrong_tries INTEGER NOT NULL DEFAULT 0
        ) STRICT;
INSERT INTO "enrolments" VALUES('01a21616-3b9c-7591-b334-6981a8f560a0','01a21616-3b99-7642-9300-9d4a8d55d614','6bbecec4060598bc4fa3fc03b3cf5411c7add2de8ebcec9402b9455c99b7d28a','nurse:01a21616-3b88-72a9-a89c-510a45dab5b0','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z','2027-03-02T20:00:00.000000Z',0);
INSERT INTO "enrolments" VALUES('01a21616-3baa-7007-aed0-05b679d4e4ec','01a21616-3ba9-765d-8221-e8a732847e8a','48b7a8f20e75eaaea8acd479a82cb7707da07df845de3b054084cf5258abad57','nurse:01a21616-3b88-72a9-a89c-510a45dab5b0','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z',NULL,0);
CREATE TABLE events (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", kind TEXT NOT NULL, at TEXT NOT NULL,
            body TEXT NOT NULL, author TEXT NOT NULL, device_id TEXT REFERENCES devices, sequence INTEGER,
            offset_minutes INTEGER, device_at TEXT, received_at TEXT NOT NULL, corrects TEXT REFERENCES events
        , reason TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000001','01a21616-3b99-7642-9300-9d4bc0cbb1c0','posture','2027-03-05T09:00:00.000000Z','{"from":"2027-03-03T08:00:00Z","position":"face-down","to":"2027-03-03T11:00:00Z"}','patient:01a21616-3bb0-71f5-84b1-2478340e1c0d','01a21616-3bb0-71f5-84b1-2478340e1c0d',1,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000002','01a21616-3b99-7642-9300-9d4bc0cbb1c0','symptoms','2027-03-05T09:00:00.000000Z','{"cannot_tell":[],"curtain":true,"pain":8,"vision":"worse","words":""}','patient:01a21616-3bb0-71f5-84b1-2478340e1c0d','01a21616-3bb0-71f5-84b1-2478340e1c0d',2,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21616-3c11-736c-8537-ed56a5a066e7','01a21616-3b99-7642-9300-9d4bc0cbb1c0','measures','2027-03-05T10:00:00.000000Z','{"acuity":"6/60","bubble_percent":85.0,"eye":"right","findings":[],"instrument":"applanation","iop_mmhg":41.0,"notes":""}','nurse:01a21616-3b88-72a9-a89c-510a45dab5b0',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21616-3c12-74a2-90a4-c57b8f6c5456','01a21616-3b99-7642-9300-9d4bc0cbb1c0','seen','2027-03-05T10:00:00.000000Z','{"visit":"day 1","visit_id":"01a21616-3b9b-7061-89ce-5d62d8d554a0"}','nurse:01a21616-3b88-72a9-a89c-510a45dab5b0',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21616-3c35-75d3-80b3-26c772da9396','01a21616-3ba9-765d-8221-e8a82df6792b','measures','2027-03-05T10:00:00.000000Z','{"acuity":"HM","eye":"right","findings":[],"iop_mmhg":14.0,"notes":""}','nurse:01a21616-3b88-72a9-a89c-510a45dab5b0',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21616-3d01-741a-b801-897f7dc86815','01a21616-3b99-7642-9300-9d4bc0cbb1c0','heard','2027-03-05T10:00:00.000000Z','{"words":"comes at once"}','nurse:01a21616-3b88-72a9-a89c-510a45dab5b0',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
CREATE TABLE "eyes" (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, created_at TEXT NOT NULL, ended_at TEXT
        , side TEXT CHECK (side IN ('right', 'left')), followed_since TEXT, end_reason TEXT, joined_into TEXT REFERENCES eyes) STRICT;
INSERT INTO "eyes" VALUES('01a21616-3b99-7642-9300-9d4bc0cbb1c0','01a21616-3b99-7642-9300-9d4a8d55d614','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a21616-3b99-7642-9300-9d4c5d4c2d98','01a21616-3b99-7642-9300-9d4a8d55d614','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
INSERT INTO "eyes" VALUES('01a21616-3ba9-765d-8221-e8a82df6792b','01a21616-3ba9-765d-8221-e8a732847e8a','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a21616-3ba9-765d-8221-e8a9602eaa9c','01a21616-3ba9-765d-8221-e8a732847e8a','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
CREATE TABLE faults (
            what TEXT NOT NULL, about TEXT NOT NULL, words TEXT NOT NULL, first_at TEXT NOT NULL, last_at TEXT NOT NULL,
            times INTEGER NOT NULL DEFAULT 1, PRIMARY KEY (what, about)
        ) STRICT;
CREATE TABLE follow_ups (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, at TEXT NOT NULL,
            what TEXT NOT NULL CHECK (what IN ('begun', 'ended', 'resumed')), reason TEXT NOT NULL, words TEXT NOT NULL,
            recorded_by TEXT NOT NULL
        ) STRICT;
INSERT INTO "follow_ups" VALUES('01a21616-3b9c-7591-b334-6980c2dd6a81','01a21616-3b99-7642-9300-9d4bc0cbb1c0','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a21616-3b88-72a9-a89c-510a45dab5b0');
INSERT INTO "follow_ups" VALUES('01a21616-3baa-7007-aed0-05b5b8b4b7b4','01a21616-3ba9-765d-8221-e8a82df6792b','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a21616-3b88-72a9-a89c-510a45dab5b0');
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
INSERT INTO "operation_records" VALUES('01a21616-3b9b-7061-89ce-5d6102db75d6','01a21616-3b9b-7061-89ce-5d6039a3a2dd','right','2027-03-02T14:00:00.000000Z','c2f6','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":95.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":16.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a21616-3b88-72a9-a89c-510a45dab5b0','2027-03-02T19:00:00.000000Z','');
INSERT INTO "operation_records" VALUES('01a21616-3ba9-765d-8221-e8ab04237a3d','01a21616-3ba9-765d-8221-e8aab6d7e0eb','right','2027-03-02T14:00:00.000000Z','silicone-oil','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":90.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":0.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a21616-3b88-72a9-a89c-510a45dab5b0','2027-03-02T19:00:00.000000Z','');
CREATE TABLE operations (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, created_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "operations" VALUES('01a21616-3b9b-7061-89ce-5d6039a3a2dd','01a21616-3b99-7642-9300-9d4bc0cbb1c0','2027-03-02T19:00:00.000000Z');
INSERT INTO "operations" VALUES('01a21616-3ba9-765d-8221-e8aab6d7e0eb','01a21616-3ba9-765d-8221-e8a82df6792b','2027-03-02T19:00:00.000000Z');
CREATE TABLE patient_terms (term TEXT NOT NULL, patient_id TEXT NOT NULL REFERENCES patients) STRICT;
INSERT INTO "patient_terms" VALUES('s1','01a21616-3b99-7642-9300-9d4a8d55d614');
INSERT INTO "patient_terms" VALUES('00','01a21616-3b99-7642-9300-9d4a8d55d614');
INSERT INTO "patient_terms" VALUES('erson','01a21616-3b99-7642-9300-9d4a8d55d614');
INSERT INTO "patient_terms" VALUES('s','01a21616-3b99-7642-9300-9d4a8d55d614');
INSERT INTO "patient_terms" VALUES('son','01a21616-3b99-7642-9300-9d4a8d55d614');
INSERT INTO "patient_terms" VALUES('009876','01a21616-3b99-7642-9300-9d4a8d55d614');
INSERT INTO "patient_terms" VALUES('76','01a21616-3b99-7642-9300-9d4a8d55d614');
INSERT INTO "patient_terms" VALUES('ia','01a21616-3b99-7642-9300-9d4a8d55d614');
INSERT INTO "patient_terms" VALUES('rson','01a21616-3b99-7642-9300-9d4a8d55d614');
INSERT INTO "patient_terms" VALUES('on','01a21616-3b99-7642-9300-9d4a8d55d614');
INSERT INTO "patient_terms" VALUES('876','01a21616-3b99-7642-9300-9d4a8d55d614');
INSERT INTO "patient_terms" VALUES('9','01a21616-3b99-7642-9300-9d4a8d55d614');
INSERT INTO "patient_terms" VALUES('person','01a21616-3b99-7642-9300-9d4a8d55d614');
INSERT INTO "patient_terms" VALUES('9876','01a21616-3b99-7642-9300-9d4a8d55d614');
INSERT INTO "patient_terms" VALUES('1','01a21616-3b99-7642-9300-9d4a8d55d614');
INSERT INTO "patient_terms" VALUES('09876','01a21616-3b99-7642-9300-9d4a8d55d614');
INSERT INTO "patient_terms" VALUES('pia','01a21616-3b99-7642-9300-9d4a8d55d614');
INSERT INTO "patient_terms" VALUES('other','01a21616-3ba9-765d-8221-e8a732847e8a');
INSERT INTO "patient_terms" VALUES('00','01a21616-3ba9-765d-8221-e8a732847e8a');
INSERT INTO "patient_terms" VALUES('s','01a21616-3ba9-765d-8221-e8a732847e8a');
INSERT INTO "patient_terms" VALUES('olaf','01a21616-3ba9-765d-8221-e8a732847e8a');
INSERT INTO "patient_terms" VALUES('009876','01a21616-3ba9-765d-8221-e8a732847e8a');
INSERT INTO "patient_terms" VALUES('76','01a21616-3ba9-765d-8221-e8a732847e8a');
INSERT INTO "patient_terms" VALUES('er','01a21616-3ba9-765d-8221-e8a732847e8a');
INSERT INTO "patient_terms" VALUES('2','01a21616-3ba9-765d-8221-e8a732847e8a');
INSERT INTO "patient_terms" VALUES('9','01a21616-3ba9-765d-8221-e8a732847e8a');
INSERT INTO "patient_terms" VALUES('876','01a21616-3ba9-765d-8221-e8a732847e8a');
INSERT INTO "patient_terms" VALUES('af','01a21616-3ba9-765d-8221-e8a732847e8a');
INSERT INTO "patient_terms" VALUES('s2','01a21616-3ba9-765d-8221-e8a732847e8a');
INSERT INTO "patient_terms" VALUES('laf','01a21616-3ba9-765d-8221-e8a732847e8a');
INSERT INTO "patient_terms" VALUES('her','01a21616-3ba9-765d-8221-e8a732847e8a');
INSERT INTO "patient_terms" VALUES('9876','01a21616-3ba9-765d-8221-e8a732847e8a');
INSERT INTO "patient_terms" VALUES('ther','01a21616-3ba9-765d-8221-e8a732847e8a');
INSERT INTO "patient_terms" VALUES('09876','01a21616-3ba9-765d-8221-e8a732847e8a');
CREATE TABLE patients (
            id TEXT PRIMARY KEY, number TEXT NOT NULL UNIQUE, name TEXT NOT NULL, born_on TEXT NOT NULL,
            phone TEXT NOT NULL, language TEXT NOT NULL, created_at TEXT NOT NULL
        , joined_into TEXT REFERENCES patients) STRICT;
INSERT INTO "patients" VALUES('01a21616-3b99-7642-9300-9d4a8d55d614','S-1','Pia Person','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL);
INSERT INTO "patients" VALUES('01a21616-3ba9-765d-8221-e8a732847e8a','S-2','Olaf Other','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL);
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
INSERT INTO "refused_events" VALUES('0195e5a0-0000-7000-8000-000000000003','01a21616-3b99-7642-9300-9d4bc0cbb1c0','01a21616-3bb0-71f5-84b1-2478340e1c0d','{"id": "0195e5a0-0000-7000-8000-000000000003", "operation": "01a21616-3b99-7642-9300-9d4bc0cbb1c0", "kind": "symptoms", "at": "2027-03-05T09:00:00Z", "offset_minutes": 60, "sequence": 3, "by": "patient", "body": {"pain": 99}}','pain: Input should be less than or equal to 10','2027-03-05T10:00:00.000000Z');
CREATE TABLE settings (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
CREATE TABLE signatures (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, fingerprint TEXT NOT NULL, signed_by TEXT NOT NULL REFERENCES staff,
            signed_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "signatures" VALUES('01a21616-3d0a-7418-a508-377c65b648b0','reviews','8409d8bc694c76d2','01a21616-3b90-727e-8a51-f5e6c7509274','2027-03-05T10:00:00.000000Z');
CREATE TABLE staff (
            id TEXT PRIMARY KEY, name TEXT NOT NULL, role TEXT NOT NULL CHECK (role IN ('nurse', 'surgeon')),
            email TEXT NOT NULL UNIQUE, password_hash TEXT NOT NULL, created_at TEXT NOT NULL, left_at TEXT
        ) STRICT;
INSERT INTO "staff" VALUES('01a21616-3b88-72a9-a89c-510a45dab5b0','Nora Nurse','nurse','nurse@test.invalid','$argon2id$v=19$m=8,t=1,p=1$S9z42Hl+Vnxyl8wF3cTUCw$FEMDT4F3pS/2FD2VtGbBAEDxffI8idieSxhzDGLuBM4','2027-03-02T14:00:00.000000Z',NULL);
INSERT INTO "staff" VALUES('01a21616-3b90-727e-8a51-f5e6c7509274','Sol Surgeon','surgeon','surgeon@test.invalid','$argon2id$v=19$m=8,t=1,p=1$1WNurelHDcUyGfaHj2k1Hg$ye4LbSyMaZo55Gzvtvu2xuTJyVDtgpMuJEhzrHtRUBo','2027-03-02T14:00:00.000000Z',NULL);
CREATE TABLE tasks (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks,
            eye_id TEXT NOT NULL REFERENCES "eyes", kind TEXT NOT NULL, words TEXT NOT NULL, visit_id TEXT,
            owner TEXT REFERENCES staff, due_at TEXT NOT NULL, made_by TEXT NOT NULL REFERENCES staff, made_at TEXT NOT NULL,
            told_at TEXT, done_at TEXT, done_by TEXT REFERENCES staff, done_words TEXT NOT NULL DEFAULT '',
            given_up INTEGER NOT NULL DEFAULT 0
        ) STRICT;
INSERT INTO "tasks" VALUES('01a21616-3d07-7755-baa9-7a8e9973a932','01a21616-3bf2-75bd-83e9-3048e573ff66','01a21616-3b99-7642-9300-9d4bc0cbb1c0','come-today','comes at two','01a21616-3d07-7755-baa9-7a8d589d00a9','01a21616-3b88-72a9-a89c-510a45dab5b0','2027-03-05T11:00:00.000000Z','01a21616-3b88-72a9-a89c-510a45dab5b0','2027-03-05T10:00:00.000000Z',NULL,NULL,NULL,'',0);
CREATE TABLE tries (what TEXT NOT NULL, key TEXT NOT NULL, at TEXT NOT NULL) STRICT;
CREATE TABLE visits (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", name TEXT NOT NULL,
            target TEXT NOT NULL, earliest TEXT NOT NULL, latest TEXT NOT NULL, reason TEXT NOT NULL,
            recorded_by TEXT NOT NULL, recorded_at TEXT NOT NULL, replaces TEXT REFERENCES visits,
            withdrawn INTEGER NOT NULL DEFAULT 0
        , identity TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "visits" VALUES('01a21616-3b9b-7061-89ce-5d62d8d554a0','01a21616-3b99-7642-9300-9d4bc0cbb1c0','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a21616-3b88-72a9-a89c-510a45dab5b0','2027-03-02T19:00:00.000000Z',NULL,0,'01a21616-3b9b-7061-89ce-5d62d8d554a0');
INSERT INTO "visits" VALUES('01a21616-3b9c-7591-b334-697f7be1c98a','01a21616-3b99-7642-9300-9d4bc0cbb1c0','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a21616-3b88-72a9-a89c-510a45dab5b0','2027-03-02T19:00:00.000000Z',NULL,0,'01a21616-3b9c-7591-b334-697f7be1c98a');
INSERT INTO "visits" VALUES('01a21616-3ba9-765d-8221-e8ac0dd40a6f','01a21616-3ba9-765d-8221-e8a82df6792b','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a21616-3b88-72a9-a89c-510a45dab5b0','2027-03-02T19:00:00.000000Z',NULL,0,'01a21616-3ba9-765d-8221-e8ac0dd40a6f');
INSERT INTO "visits" VALUES('01a21616-3ba9-765d-8221-e8ad4980f313','01a21616-3ba9-765d-8221-e8a82df6792b','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a21616-3b88-72a9-a89c-510a45dab5b0','2027-03-02T19:00:00.000000Z',NULL,0,'01a21616-3ba9-765d-8221-e8ad4980f313');
INSERT INTO "visits" VALUES('01a21616-3d07-7755-baa9-7a8d589d00a9','01a21616-3b99-7642-9300-9d4bc0cbb1c0','extra visit','2027-03-05','2027-03-05','2027-03-05','after a callback (infection)','nurse:01a21616-3b88-72a9-a89c-510a45dab5b0','2027-03-05T10:00:00.000000Z',NULL,0,'01a21616-3d07-7755-baa9-7a8d589d00a9');
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
INSERT INTO "warnings" VALUES('01a21616-3bd9-705d-bf64-12afff8f6db2','01a21616-3b99-7642-9300-9d4bc0cbb1c0','01a21616-3bd9-705d-bf64-12ad9da71827','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-3bda-73e0-940c-4a3c60067301','01a21616-3b99-7642-9300-9d4bc0cbb1c0','01a21616-3bda-73e0-940c-4a3ac700f1e4','posture-missed','posture','today','2027-03-03T23:00:00.000000Z',0.75,'{"date":"2027-03-03","hours":3.0,"target_hours":12}','{"share":0.5}','CP','Only 3 of 12 hours of posturing on 2027-03-03.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-3bda-73e0-940c-4a3fe48f080f','01a21616-3b99-7642-9300-9d4bc0cbb1c0','01a21616-3bda-73e0-940c-4a3d20986ce5','silent-while-posturing','silence','today','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-3bda-73e0-940c-4a41d21c7cd9','01a21616-3b99-7642-9300-9d4bc0cbb1c0','01a21616-3bda-73e0-940c-4a3d20986ce5','no-posture-entry','silence','today','2027-03-04T23:00:00.000000Z',1.0,'{"date":"2027-03-04"}','{}','CP','Nothing logged for posturing on 2027-03-04.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-3bf2-75bd-83e9-304a39504668','01a21616-3b99-7642-9300-9d4bc0cbb1c0','01a21616-3bf2-75bd-83e9-3048e573ff66','infection-suspected','infection','now','2027-03-05T09:00:00.000000Z',30.0,'{"pain":8,"vision":"worse"}','{"count":2,"signs":["pain>=4","vision=worse","redness=worse","discharge"]}','BOSU','Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-3bf2-75bd-83e9-304d31569691','01a21616-3b99-7642-9300-9d4bc0cbb1c0','01a21616-3bf2-75bd-83e9-304b6565519f','severe-pain','pressure','now','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=7"]}','VRS','Severe pain (8 of 10): pressure and infection must be ruled out.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-3bf3-7344-b69e-b0518f56fa13','01a21616-3b99-7642-9300-9d4bc0cbb1c0','01a21616-3bf2-75bd-83e9-304e7d4e80a1','curtain','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"curtain":true,"pain":8}','{"count":1,"signs":["curtain"]}','Yor18','A curtain or shadow that does not move with the bubble: new detachment until shown otherwise.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-3bf3-7344-b69e-b053dea792ad','01a21616-3b99-7642-9300-9d4bc0cbb1c0','01a21616-3bf2-75bd-83e9-304b6565519f','pain','pressure','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=5"]}','VRS','Pain of 8 of 10, beyond what simple painkillers usually hold.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-3bf3-7344-b69e-b055b9175ac9','01a21616-3b99-7642-9300-9d4bc0cbb1c0','01a21616-3bf2-75bd-83e9-304e7d4e80a1','vision-worse','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','VRS','The patient says that the vision fell.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-3c25-7458-97bb-f5e9a3837d2d','01a21616-3b99-7642-9300-9d4bc0cbb1c0','01a21616-3bf2-75bd-83e9-304b6565519f','pressure-severe','pressure','now','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":40}','Bern12','Pressure 41 mmHg, at or above 40.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-3c25-7458-97bb-f5eb84fd6163','01a21616-3b99-7642-9300-9d4bc0cbb1c0','01a21616-3bf2-75bd-83e9-304b6565519f','pressure-spike','pressure','today','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":30}','Bern12','Pressure 41 mmHg, at or above 30.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-3c25-7458-97bb-f5ed39e71820','01a21616-3b99-7642-9300-9d4bc0cbb1c0','01a21616-3bf2-75bd-83e9-304b6565519f','pressure-raised','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":24}','NICE','Pressure 41 mmHg, at or above 24.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-3c26-71b4-b15b-f304189a5ec1','01a21616-3b99-7642-9300-9d4bc0cbb1c0','01a21616-3bf2-75bd-83e9-304b6565519f','pressure-rise','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"baseline_mmhg":15,"instrument":"applanation","iop_mmhg":41.0,"pain":null,"risen_mmhg":26.0}','{"mmhg":24,"rise_mmhg":10}','NICE','Pressure 41 mmHg, 26 above this eye’s own 15.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-3c3d-74b7-bb97-dc3c8806739b','01a21616-3ba9-765d-8221-e8a82df6792b','01a21616-3c3d-74b7-bb97-dc3af5821d63','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-3c3d-74b7-bb97-dc3fc560e2d8','01a21616-3ba9-765d-8221-e8a82df6792b','01a21616-3c3d-74b7-bb97-dc3dd10dae70','no-posture-entry','silence','today','2027-03-03T23:00:00.000000Z',1.0,'{"date":"2027-03-03"}','{}','CP','Nothing logged for posturing on 2027-03-03.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-3c3d-74b7-bb97-dc41762516d9','01a21616-3ba9-765d-8221-e8a82df6792b','01a21616-3c3d-74b7-bb97-dc3dd10dae70','silent-while-posturing','silence','today','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
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
COMMIT;
