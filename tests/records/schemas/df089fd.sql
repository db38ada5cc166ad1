BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'followup','m001_people','2026-11-25 20:00:47.779283+00:00');
INSERT INTO "_sqlite_migrations" VALUES(2,'followup','m002_eyes','2026-11-25 20:00:47.783557+00:00');
INSERT INTO "_sqlite_migrations" VALUES(3,'followup','m003_worries','2026-11-25 20:00:47.788230+00:00');
INSERT INTO "_sqlite_migrations" VALUES(4,'followup','m004_audit','2026-11-25 20:00:47.791705+00:00');
CREATE TABLE audit (
            number INTEGER PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, action TEXT NOT NULL, subject TEXT NOT NULL,
            detail TEXT NOT NULL, previous TEXT NOT NULL, hash TEXT NOT NULL
        ) STRICT;
INSERT INTO "audit" VALUES(1,'2027-03-02T14:00:00.000000Z','command line','staff added','01a2144b-e4b1-70a9-a52f-e8039eb6c20c','{"role":"nurse"}','0000000000000000000000000000000000000000000000000000000000000000','e73429bb769f76a140d8755368835fad0204561203a37b13a56932f2b807a1e7');
INSERT INTO "audit" VALUES(2,'2027-03-02T14:00:00.000000Z','command line','staff added','01a2144b-e4b3-73c8-aa35-11e2956b4344','{"role":"surgeon"}','e73429bb769f76a140d8755368835fad0204561203a37b13a56932f2b807a1e7','b5b02da3b55b302e03032581e2877821e763305af5719f3737d83fce47b74130');
INSERT INTO "audit" VALUES(3,'2027-03-02T19:00:00.000000Z','nurse:01a2144b-e4b1-70a9-a52f-e8039eb6c20c','enrolment code','01a2144b-e4b4-7118-996c-6062de7ff71d','null','b5b02da3b55b302e03032581e2877821e763305af5719f3737d83fce47b74130','d9354ca8197c4dadb51a01a1598373f579c54d558d93b507f1839be9216ae10d');
INSERT INTO "audit" VALUES(4,'2027-03-02T19:00:00.000000Z','nurse:01a2144b-e4b1-70a9-a52f-e8039eb6c20c','discharge','01a2144b-e4b4-7118-996c-6063b8f6d533','{"agent":"c2f6","eye":"right"}','d9354ca8197c4dadb51a01a1598373f579c54d558d93b507f1839be9216ae10d','a4235ce12bf757ed5f0065a8c3718c9bcb238be00e3efee96a91017fb3ce21b2');
INSERT INTO "audit" VALUES(5,'2027-03-02T19:00:00.000000Z','nurse:01a2144b-e4b1-70a9-a52f-e8039eb6c20c','enrolment code','01a2144b-e4b7-77da-b4e9-e20502d55c41','null','a4235ce12bf757ed5f0065a8c3718c9bcb238be00e3efee96a91017fb3ce21b2','ec8c36d69bc8b28e06e5431b2447d8ba7a2a22e65e6ab2021ca7c3824b30b865');
INSERT INTO "audit" VALUES(6,'2027-03-02T19:00:00.000000Z','nurse:01a2144b-e4b1-70a9-a52f-e8039eb6c20c','discharge','01a2144b-e4b7-77da-b4e9-e2064f83b3b9','{"agent":"silicone-oil","eye":"right"}','ec8c36d69bc8b28e06e5431b2447d8ba7a2a22e65e6ab2021ca7c3824b30b865','970d67f2949228807229b1243bb8691d993051eed47ca74e1f66118f392f942d');
INSERT INTO "audit" VALUES(7,'2027-03-02T20:00:00.000000Z','patient:01a2144b-e4bb-74d4-aeb1-0bf97f974d16','device enrolled','01a2144b-e4b4-7118-996c-6062de7ff71d','null','970d67f2949228807229b1243bb8691d993051eed47ca74e1f66118f392f942d','960e3033c6fb19fcc3cc4aea852bdce99b00af04f258ef184c0ef0cabeca184d');
INSERT INTO "audit" VALUES(8,'2027-03-05T10:00:00.000000Z','patient:01a2144b-e4bb-74d4-aeb1-0bf97f974d16','event posture','01a2144b-e4b4-7118-996c-6063b8f6d533','{"id":"0195e5a0-0000-7000-8000-000000000001"}','960e3033c6fb19fcc3cc4aea852bdce99b00af04f258ef184c0ef0cabeca184d','b400e2290241bc3e7d912e298cf4f1a0e772ae016922c2d0fa33a5def4556549');
INSERT INTO "audit" VALUES(9,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e4b4-7118-996c-6063b8f6d533','{"how_soon":"today","rule":"missed-early-visit"}','b400e2290241bc3e7d912e298cf4f1a0e772ae016922c2d0fa33a5def4556549','6503e771c7c0f51610e217648d5763a268264565ea02164848fc8e3c7ad504e3');
INSERT INTO "audit" VALUES(10,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e4b4-7118-996c-6063b8f6d533','{"how_soon":"today","rule":"posture-missed"}','6503e771c7c0f51610e217648d5763a268264565ea02164848fc8e3c7ad504e3','2a6be65a3dd9c82c8d50d9e8226b813f438c18eaf10ba50bb71aab537bd1f4a8');
INSERT INTO "audit" VALUES(11,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e4b4-7118-996c-6063b8f6d533','{"how_soon":"today","rule":"silent-while-posturing"}','2a6be65a3dd9c82c8d50d9e8226b813f438c18eaf10ba50bb71aab537bd1f4a8','e2190f52f2ff7c12ba193e590455ec17a333515c1c67ec8b1365c0709e7ba385');
INSERT INTO "audit" VALUES(12,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e4b4-7118-996c-6063b8f6d533','{"how_soon":"today","rule":"no-posture-entry"}','e2190f52f2ff7c12ba193e590455ec17a333515c1c67ec8b1365c0709e7ba385','d69e96e3d9b8f71b5668be17fb30980b519e645ab45fd50c94bedc7a8fc358f9');
INSERT INTO "audit" VALUES(13,'2027-03-05T10:00:00.000000Z','patient:01a2144b-e4bb-74d4-aeb1-0bf97f974d16','event symptoms','01a2144b-e4b4-7118-996c-6063b8f6d533','{"id":"0195e5a0-0000-7000-8000-000000000002"}','d69e96e3d9b8f71b5668be17fb30980b519e645ab45fd50c94bedc7a8fc358f9','7240f3097fc6c98981187f7c8825f75aca2f2cdf78b64431002827cbc5061bee');
INSERT INTO "audit" VALUES(14,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e4b4-7118-996c-6063b8f6d533','{"how_soon":"now","rule":"infection-suspected"}','7240f3097fc6c98981187f7c8825f75aca2f2cdf78b64431002827cbc5061bee','5a70452207904bd186430054009d8f322abb8b165334975a91c9e3a029e39f7e');
INSERT INTO "audit" VALUES(15,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e4b4-7118-996c-6063b8f6d533','{"how_soon":"now","rule":"severe-pain"}','5a70452207904bd186430054009d8f322abb8b165334975a91c9e3a029e39f7e','c52f4d9d929c0891c4c8fc6b8a41eb333babc5e71fe120a3e196f0c6bff3ddd7');
INSERT INTO "audit" VALUES(16,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e4b4-7118-996c-6063b8f6d533','{"how_soon":"today","rule":"curtain"}','c52f4d9d929c0891c4c8fc6b8a41eb333babc5e71fe120a3e196f0c6bff3ddd7','407efa95c225ff33bd10e6ea66f71f1363b5850edd1a149a3b84090be5b58699');
INSERT INTO "audit" VALUES(17,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e4b4-7118-996c-6063b8f6d533','{"how_soon":"today","rule":"pain"}','407efa95c225ff33bd10e6ea66f71f1363b5850edd1a149a3b84090be5b58699','fa9e12ea202a8ac71278c92153d76b5460e3ed078fa1f5ec213d1d29d93c53fb');
INSERT INTO "audit" VALUES(18,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e4b4-7118-996c-6063b8f6d533','{"how_soon":"today","rule":"vision-worse"}','fa9e12ea202a8ac71278c92153d76b5460e3ed078fa1f5ec213d1d29d93c53fb','34f76a0952b1c58f5086cde6fb7ae85e87b13af2a3a17275f2e2b8d276b4b879');
INSERT INTO "audit" VALUES(19,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-e4b1-70a9-a52f-e8039eb6c20c','event measures','01a2144b-e4b4-7118-996c-6063b8f6d533','{"id":"01a2144b-e4df-768c-89a2-6c79fa43468e"}','34f76a0952b1c58f5086cde6fb7ae85e87b13af2a3a17275f2e2b8d276b4b879','82c4f7fd29b5d896ad0640b21de4671e9964450408105fdc47a3281fdd66d196');
INSERT INTO "audit" VALUES(20,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-e4b1-70a9-a52f-e8039eb6c20c','event seen','01a2144b-e4b4-7118-996c-6063b8f6d533','{"id":"01a2144b-e4df-768c-89a2-6c7a36f48ff2"}','82c4f7fd29b5d896ad0640b21de4671e9964450408105fdc47a3281fdd66d196','763d175deb6287397ec1bd5b595454a99522b1f7b109560bf2f72319a92307b1');
INSERT INTO "audit" VALUES(21,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e4b4-7118-996c-6063b8f6d533','{"how_soon":"now","rule":"pressure-severe"}','763d175deb6287397ec1bd5b595454a99522b1f7b109560bf2f72319a92307b1','eee98653db71c6355d725cd8434f375c49f3e517c110afeb14b208fdbb8661e9');
INSERT INTO "audit" VALUES(22,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e4b4-7118-996c-6063b8f6d533','{"how_soon":"today","rule":"pressure-spike"}','eee98653db71c6355d725cd8434f375c49f3e517c110afeb14b208fdbb8661e9','e4d14d2136327ea61aebb8f430278945efdce54d7ed52dfa2451a42d1ccda546');
INSERT INTO "audit" VALUES(23,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e4b4-7118-996c-6063b8f6d533','{"how_soon":"this-week","rule":"pressure-raised"}','e4d14d2136327ea61aebb8f430278945efdce54d7ed52dfa2451a42d1ccda546','6a2099d4f613df08f44e4203f42a9e2b5329af4a69d42020fccc3b2002fcfc19');
INSERT INTO "audit" VALUES(24,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e4b4-7118-996c-6063b8f6d533','{"how_soon":"this-week","rule":"pressure-rise"}','6a2099d4f613df08f44e4203f42a9e2b5329af4a69d42020fccc3b2002fcfc19','c11a1dd1be9a3fad9d64bba9a841060e55996fbbe27d6090851de1f03afeea4f');
INSERT INTO "audit" VALUES(25,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-e4b1-70a9-a52f-e8039eb6c20c','event measures','01a2144b-e4b7-77da-b4e9-e2064f83b3b9','{"id":"01a2144b-e4e7-716c-88fc-e633d0e930fc"}','c11a1dd1be9a3fad9d64bba9a841060e55996fbbe27d6090851de1f03afeea4f','c318d24face6c90dd0919f5028d7a0615051ec5966cee81b2335eb9e8e366a51');
INSERT INTO "audit" VALUES(26,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e4b7-77da-b4e9-e2064f83b3b9','{"how_soon":"today","rule":"missed-early-visit"}','c318d24face6c90dd0919f5028d7a0615051ec5966cee81b2335eb9e8e366a51','315f7218fbaea5874320479e435a04969db925c930e1989641cf01b589fffdb2');
INSERT INTO "audit" VALUES(27,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e4b7-77da-b4e9-e2064f83b3b9','{"how_soon":"today","rule":"no-posture-entry"}','315f7218fbaea5874320479e435a04969db925c930e1989641cf01b589fffdb2','8ace9ae2da5202bc7fa3e2dbaede49975af1f57fdc4e5c47460b3e216c9f0c5d');
INSERT INTO "audit" VALUES(28,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e4b7-77da-b4e9-e2064f83b3b9','{"how_soon":"today","rule":"silent-while-posturing"}','8ace9ae2da5202bc7fa3e2dbaede49975af1f57fdc4e5c47460b3e216c9f0c5d','6d107be4c3da404bbe8766f79d3cdd55ca3aa88ab072864a97786c86ff0eb797');
INSERT INTO "audit" VALUES(29,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-e4b1-70a9-a52f-e8039eb6c20c','visit brought forward','01a2144b-e4b4-7118-996c-6063b8f6d533','{"latest":"2027-03-08"}','6d107be4c3da404bbe8766f79d3cdd55ca3aa88ab072864a97786c86ff0eb797','c2d1df1c178ad066bef3a94da6807f504ca4cbdb18f89499f8399648c3226c7d');
INSERT INTO "audit" VALUES(30,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-e4b1-70a9-a52f-e8039eb6c20c','callback claimed','01a2144b-e4dc-77c3-852a-faa8ad3aeae0','null','c2d1df1c178ad066bef3a94da6807f504ca4cbdb18f89499f8399648c3226c7d','d5c67aa45a233f491b9a1ee0ff63a03b6e4dcb498e671f07c6b0562f1b0d0a17');
INSERT INTO "audit" VALUES(31,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-e4b1-70a9-a52f-e8039eb6c20c','callback attempt','01a2144b-e4dc-77c3-852a-faa8ad3aeae0','{"reached":true}','d5c67aa45a233f491b9a1ee0ff63a03b6e4dcb498e671f07c6b0562f1b0d0a17','5267bd4e0c0407dea04e0432d140999b156a8317aa960114205e43212fe2bfc2');
INSERT INTO "audit" VALUES(32,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-e4b1-70a9-a52f-e8039eb6c20c','visit brought forward','01a2144b-e4b4-7118-996c-6063b8f6d533','{"latest":"2027-03-05"}','5267bd4e0c0407dea04e0432d140999b156a8317aa960114205e43212fe2bfc2','5013c44dea4a59374e8675105ec2c0c6b6aa8e1d261490c995f76236f5ffe3f0');
INSERT INTO "audit" VALUES(33,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-e4b1-70a9-a52f-e8039eb6c20c','callback settled','01a2144b-e4dc-77c3-852a-faa8ad3aeae0','{"outcome":"same-day"}','5013c44dea4a59374e8675105ec2c0c6b6aa8e1d261490c995f76236f5ffe3f0','081fa873e98f47bd8e46169d2e6f195f0b214d6f19f69b70c3cc9da877608c3a');
INSERT INTO "audit" VALUES(34,'2027-03-05T10:00:00.000000Z','surgeon:01a2144b-e4b3-73c8-aa35-11e2956b4344','protocol signed','reviews','{"fingerprint":"8409d8bc694c76d2"}','081fa873e98f47bd8e46169d2e6f195f0b214d6f19f69b70c3cc9da877608c3a','676ad1019c1b530c3b436ed8d63fc941ab94906daa6e04a58772f5489f9308c5');
CREATE TABLE callback_steps (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks, at TEXT NOT NULL, who TEXT NOT NULL,
            step TEXT NOT NULL, detail TEXT NOT NULL
        ) STRICT;
INSERT INTO "callback_steps" VALUES('01a2144b-e4d4-7040-93f8-8d1a31b80286','01a2144b-e4d3-747f-a69b-1ecfc05964a0','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e4d4-7040-93f8-8d1d62af9ff2','01a2144b-e4d4-7040-93f8-8d1c98afffbd','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"posture-missed","words":"Only 3 of 12 hours of posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e4d4-7040-93f8-8d20ec0a2f18','01a2144b-e4d4-7040-93f8-8d1fc58b12d0','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e4d4-7040-93f8-8d22ea7f8036','01a2144b-e4d4-7040-93f8-8d1fc58b12d0','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-04."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e4dc-77c3-852a-faa9ba2e7526','01a2144b-e4dc-77c3-852a-faa8ad3aeae0','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"infection-suspected","words":"Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e4dc-77c3-852a-faac54a8b483','01a2144b-e4dc-77c3-852a-faab3bae1a99','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"severe-pain","words":"Severe pain (8 of 10): pressure and infection must be ruled out."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e4dc-77c3-852a-faaf5d2e7ece','01a2144b-e4dc-77c3-852a-faaebc8be76e','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"curtain","words":"A curtain or shadow that does not move with the bubble: new detachment until shown otherwise."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e4dc-77c3-852a-fab181f6724c','01a2144b-e4dc-77c3-852a-faab3bae1a99','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pain","words":"Pain of 8 of 10, beyond what simple painkillers usually hold."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e4dd-7406-adb0-0a4b573a164d','01a2144b-e4dc-77c3-852a-faaebc8be76e','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"vision-worse","words":"The patient says that the vision fell."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e4e3-7795-84c0-7916979821ba','01a2144b-e4dc-77c3-852a-faab3bae1a99','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"now","rule":"pressure-severe","words":"Pressure 41 mmHg, at or above 40."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e4e3-7795-84c0-79187fb95e11','01a2144b-e4dc-77c3-852a-faab3bae1a99','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pressure-spike","words":"Pressure 41 mmHg, at or above 30."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e4e3-7795-84c0-791a169a633e','01a2144b-e4dc-77c3-852a-faab3bae1a99','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-raised","words":"Pressure 41 mmHg, at or above 24."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e4e3-7795-84c0-791cbf7a6117','01a2144b-e4dc-77c3-852a-faab3bae1a99','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rise","words":"Pressure 41 mmHg, 26 above this eye’s own 15."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e4eb-7675-83b7-c4e4456657f2','01a2144b-e4eb-7675-83b7-c4e3a68f6820','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e4eb-7675-83b7-c4e7f251d0f9','01a2144b-e4eb-7675-83b7-c4e672415cd0','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e4eb-7675-83b7-c4e9c4a3a7dd','01a2144b-e4eb-7675-83b7-c4e672415cd0','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e4f5-7132-b541-88be91b0e268','01a2144b-e4dc-77c3-852a-faa8ad3aeae0','2027-03-05T10:00:00.000000Z','nurse:01a2144b-e4b1-70a9-a52f-e8039eb6c20c','claimed','{"by":"Nora Nurse"}');
INSERT INTO "callback_steps" VALUES('01a2144b-e4f6-70b9-8b96-4fb3638a502a','01a2144b-e4dc-77c3-852a-faa8ad3aeae0','2027-03-05T10:00:00.000000Z','nurse:01a2144b-e4b1-70a9-a52f-e8039eb6c20c','reached','{"by":"Nora Nurse","reached":true,"words":"comes at once"}');
INSERT INTO "callback_steps" VALUES('01a2144b-e4fa-7470-982b-ccb55dbe3b52','01a2144b-e4dc-77c3-852a-faa8ad3aeae0','2027-03-05T10:00:00.000000Z','nurse:01a2144b-e4b1-70a9-a52f-e8039eb6c20c','settled','{"by":"Nora Nurse","outcome":"same-day","visit":"01a2144b-e4fa-7470-982b-ccb4ec2e05c6","words":"comes at two"}');
CREATE TABLE callbacks (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, worry TEXT NOT NULL,
            how_soon TEXT NOT NULL CHECK (how_soon IN ('now', 'today', 'this-week')),
            opened_at TEXT NOT NULL, due_at TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('waiting', 'claimed', 'settled')),
            claimed_by TEXT REFERENCES staff, claimed_at TEXT, settled_at TEXT, outcome TEXT,
            level INTEGER NOT NULL DEFAULT 0
        ) STRICT;
INSERT INTO "callbacks" VALUES('01a2144b-e4d3-747f-a69b-1ecfc05964a0','01a2144b-e4b4-7118-996c-6063b8f6d533','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2144b-e4d4-7040-93f8-8d1c98afffbd','01a2144b-e4b4-7118-996c-6063b8f6d533','posture','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2144b-e4d4-7040-93f8-8d1fc58b12d0','01a2144b-e4b4-7118-996c-6063b8f6d533','silence','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2144b-e4dc-77c3-852a-faa8ad3aeae0','01a2144b-e4b4-7118-996c-6063b8f6d533','infection','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','settled','01a2144b-e4b1-70a9-a52f-e8039eb6c20c','2027-03-05T10:00:00.000000Z','2027-03-05T10:00:00.000000Z','same-day',0);
INSERT INTO "callbacks" VALUES('01a2144b-e4dc-77c3-852a-faab3bae1a99','01a2144b-e4b4-7118-996c-6063b8f6d533','pressure','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2144b-e4dc-77c3-852a-faaebc8be76e','01a2144b-e4b4-7118-996c-6063b8f6d533','retina','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2144b-e4eb-7675-83b7-c4e3a68f6820','01a2144b-e4b7-77da-b4e9-e2064f83b3b9','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2144b-e4eb-7675-83b7-c4e672415cd0','01a2144b-e4b7-77da-b4e9-e2064f83b3b9','silence','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
CREATE TABLE devices (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, token_hash TEXT NOT NULL UNIQUE,
            used_by TEXT NOT NULL, enrolled_at TEXT NOT NULL, heard_at TEXT NOT NULL, revoked_at TEXT, revoked_by TEXT
        ) STRICT;
INSERT INTO "devices" VALUES('01a2144b-e4bb-74d4-aeb1-0bf97f974d16','01a2144b-e4b4-7118-996c-6062de7ff71d','385ffd28c70cb3dc273895f640fdd49d5ba40fa9431e08f6ab55b1ef219e85c2','patient','2027-03-02T20:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,NULL);
CREATE TABLE enrolments (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, code_hash TEXT NOT NULL UNIQUE,
            created_by TEXT NOT NULL, created_at TEXT NOT NULL, expires_at TEXT NOT NULL,
            used_at TEXT, wrong_tries INTEGER NOT NULL DEFAULT 0
        ) STRICT;
INSERT INTO "enrolments" VALUES('01a2144b-e4b4-7118-996c-60674848a8be','01a2144b-e4b4-7118-996c-6062de7ff71d','a2ab3779adbb5cc369ec49ebeaaffd01907267a36bf9bcd962d283f8eab30a52','nurse:01a2144b-e4b1-70a9-a52f-e8039eb6c20c','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z','2027-03-02T20:00:00.000000Z',0);
INSERT INTO "enrolments" VALUES('01a2144b-e4b8-7194-9ed7-ca1024aac961','01a2144b-e4b7-77da-b4e9-e20502d55c41','9dac1c00e15a32cfcb9e71b75af5c43fb8c08c353eb0e8f7068f9800ee6866a6','nurse:01a2144b-e4b1-70a9-a52f-e8039eb6c20c','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z',NULL,0);
CREATE TABLE events (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, kind TEXT NOT NULL, at TEXT NOT NULL,
            body TEXT NOT NULL, author TEXT NOT NULL, device_id TEXT REFERENCES devices, sequence INTEGER,
            offset_minutes INTEGER, device_at TEXT, received_at TEXT NOT NULL, corrects TEXT REFERENCES events
        ) STRICT;
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000001','01a2144b-e4b4-7118-996c-6063b8f6d533','posture','2027-03-05T09:00:00.000000Z','{"from":"2027-03-03T08:00:00Z","position":"face-down","to":"2027-03-03T11:00:00Z"}','patient:01a2144b-e4bb-74d4-aeb1-0bf97f974d16','01a2144b-e4bb-74d4-aeb1-0bf97f974d16',1,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000002','01a2144b-e4b4-7118-996c-6063b8f6d533','symptoms','2027-03-05T09:00:00.000000Z','{"curtain":true,"pain":8,"vision":"worse","words":""}','patient:01a2144b-e4bb-74d4-aeb1-0bf97f974d16','01a2144b-e4bb-74d4-aeb1-0bf97f974d16',2,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a2144b-e4df-768c-89a2-6c79fa43468e','01a2144b-e4b4-7118-996c-6063b8f6d533','measures','2027-03-05T10:00:00.000000Z','{"acuity":"6/60","bubble_percent":85.0,"eye":"right","findings":[],"instrument":"applanation","iop_mmhg":41.0,"notes":""}','nurse:01a2144b-e4b1-70a9-a52f-e8039eb6c20c',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a2144b-e4df-768c-89a2-6c7a36f48ff2','01a2144b-e4b4-7118-996c-6063b8f6d533','seen','2027-03-05T10:00:00.000000Z','{"visit":"day 1"}','nurse:01a2144b-e4b1-70a9-a52f-e8039eb6c20c',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a2144b-e4e7-716c-88fc-e633d0e930fc','01a2144b-e4b7-77da-b4e9-e2064f83b3b9','measures','2027-03-05T10:00:00.000000Z','{"acuity":"HM","eye":"right","findings":[],"iop_mmhg":14.0,"notes":""}','nurse:01a2144b-e4b1-70a9-a52f-e8039eb6c20c',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a2144b-e4f6-70b9-8b96-4fb4eaa27690','01a2144b-e4b4-7118-996c-6063b8f6d533','heard','2027-03-05T10:00:00.000000Z','{"words":"comes at once"}','nurse:01a2144b-e4b1-70a9-a52f-e8039eb6c20c',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
CREATE TABLE job_slots (job TEXT NOT NULL, slot TEXT NOT NULL, taken_at TEXT NOT NULL, PRIMARY KEY (job, slot)) STRICT;
CREATE TABLE looks (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, at TEXT NOT NULL, who TEXT NOT NULL
        ) STRICT;
CREATE TABLE operation_records (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, eye TEXT NOT NULL,
            operated_at TEXT NOT NULL, agent TEXT NOT NULL, surgeon TEXT NOT NULL, body TEXT NOT NULL,
            recorded_by TEXT NOT NULL, recorded_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "operation_records" VALUES('01a2144b-e4b4-7118-996c-6064f62fd265','01a2144b-e4b4-7118-996c-6063b8f6d533','right','2027-03-02T14:00:00.000000Z','c2f6','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":95.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":16.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a2144b-e4b1-70a9-a52f-e8039eb6c20c','2027-03-02T19:00:00.000000Z');
INSERT INTO "operation_records" VALUES('01a2144b-e4b7-77da-b4e9-e20767c6beff','01a2144b-e4b7-77da-b4e9-e2064f83b3b9','right','2027-03-02T14:00:00.000000Z','silicone-oil','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":90.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":0.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a2144b-e4b1-70a9-a52f-e8039eb6c20c','2027-03-02T19:00:00.000000Z');
CREATE TABLE operations (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, created_at TEXT NOT NULL, ended_at TEXT
        ) STRICT;
INSERT INTO "operations" VALUES('01a2144b-e4b4-7118-996c-6063b8f6d533','01a2144b-e4b4-7118-996c-6062de7ff71d','2027-03-02T19:00:00.000000Z',NULL);
INSERT INTO "operations" VALUES('01a2144b-e4b7-77da-b4e9-e2064f83b3b9','01a2144b-e4b7-77da-b4e9-e20502d55c41','2027-03-02T19:00:00.000000Z',NULL);
CREATE TABLE patients (
            id TEXT PRIMARY KEY, number TEXT NOT NULL UNIQUE, name TEXT NOT NULL, born_on TEXT NOT NULL,
            phone TEXT NOT NULL, language TEXT NOT NULL, created_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "patients" VALUES('01a2144b-e4b4-7118-996c-6062de7ff71d','S-1','Pia Person','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z');
INSERT INTO "patients" VALUES('01a2144b-e4b7-77da-b4e9-e20502d55c41','S-2','Olaf Other','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z');
CREATE TABLE protocol_texts (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, text TEXT NOT NULL, fingerprint TEXT NOT NULL,
            saved_by TEXT NOT NULL, saved_at TEXT NOT NULL
        ) STRICT;
CREATE TABLE refused_events (
            id TEXT NOT NULL, operation_id TEXT, device_id TEXT, text TEXT NOT NULL, reason TEXT NOT NULL,
            received_at TEXT NOT NULL, UNIQUE (id, device_id, text)
        ) STRICT;
INSERT INTO "refused_events" VALUES('0195e5a0-0000-7000-8000-000000000003','01a2144b-e4b4-7118-996c-6063b8f6d533','01a2144b-e4bb-74d4-aeb1-0bf97f974d16','{"id": "0195e5a0-0000-7000-8000-000000000003", "operation": "01a2144b-e4b4-7118-996c-6063b8f6d533", "kind": "symptoms", "at": "2027-03-05T09:00:00Z", "offset_minutes": 60, "sequence": 3, "by": "patient", "body": {"pain": 99}}','pain: Input should be less than or equal to 10','2027-03-05T10:00:00.000000Z');
CREATE TABLE settings (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
CREATE TABLE signatures (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, fingerprint TEXT NOT NULL, signed_by TEXT NOT NULL REFERENCES staff,
            signed_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "signatures" VALUES('01a2144b-e4fe-7173-9cdc-a006c073b883','reviews','8409d8bc694c76d2','01a2144b-e4b3-73c8-aa35-11e2956b4344','2027-03-05T10:00:00.000000Z');
CREATE TABLE staff (
            id TEXT PRIMARY KEY, name TEXT NOT NULL, role TEXT NOT NULL CHECK (role IN ('nurse', 'surgeon')),
            email TEXT NOT NULL UNIQUE, password_hash TEXT NOT NULL, created_at TEXT NOT NULL, left_at TEXT
        ) STRICT;
INSERT INTO "staff" VALUES('01a2144b-e4b1-70a9-a52f-e8039eb6c20c','Nora Nurse','nurse','nurse@test.invalid','$argon2id$v=19$m=8,t=1,p=1$Dvq8f8O/wHNCF+uAT1In8Q$/mnugEp9m9ru/uuobvcJjdXzVHuJK41r2k4BX7bB+B4','2027-03-02T14:00:00.000000Z',NULL);
INSERT INTO "staff" VALUES('01a2144b-e4b3-73c8-aa35-11e2956b4344','Sol Surgeon','surgeon','surgeon@test.invalid','$argon2id$v=19$m=8,t=1,p=1$DbgmFMjJ5ffrBa1BR48Wtg$spg4GB8/recwDqGNIRF4w/4ta8771YHV1JIeBmMvTOQ','2027-03-02T14:00:00.000000Z',NULL);
CREATE TABLE tries (what TEXT NOT NULL, key TEXT NOT NULL, at TEXT NOT NULL) STRICT;
CREATE TABLE visits (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, name TEXT NOT NULL,
            target TEXT NOT NULL, earliest TEXT NOT NULL, latest TEXT NOT NULL, reason TEXT NOT NULL,
            recorded_by TEXT NOT NULL, recorded_at TEXT NOT NULL, replaces TEXT REFERENCES visits,
            withdrawn INTEGER NOT NULL DEFAULT 0
        ) STRICT;
INSERT INTO "visits" VALUES('01a2144b-e4b4-7118-996c-6065231e21e6','01a2144b-e4b4-7118-996c-6063b8f6d533','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a2144b-e4b1-70a9-a52f-e8039eb6c20c','2027-03-02T19:00:00.000000Z',NULL,0);
INSERT INTO "visits" VALUES('01a2144b-e4b4-7118-996c-6066a6b08524','01a2144b-e4b4-7118-996c-6063b8f6d533','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a2144b-e4b1-70a9-a52f-e8039eb6c20c','2027-03-02T19:00:00.000000Z',NULL,0);
INSERT INTO "visits" VALUES('01a2144b-e4b7-77da-b4e9-e208c42a723e','01a2144b-e4b7-77da-b4e9-e2064f83b3b9','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a2144b-e4b1-70a9-a52f-e8039eb6c20c','2027-03-02T19:00:00.000000Z',NULL,0);
INSERT INTO "visits" VALUES('01a2144b-e4b8-7194-9ed7-ca0febb03b2a','01a2144b-e4b7-77da-b4e9-e2064f83b3b9','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a2144b-e4b1-70a9-a52f-e8039eb6c20c','2027-03-02T19:00:00.000000Z',NULL,0);
INSERT INTO "visits" VALUES('01a2144b-e4f0-72b3-950c-7c141cbdfb4a','01a2144b-e4b4-7118-996c-6063b8f6d533','week 1','2027-03-08','2027-03-05','2027-03-08','sooner','nurse:01a2144b-e4b1-70a9-a52f-e8039eb6c20c','2027-03-05T10:00:00.000000Z','01a2144b-e4b4-7118-996c-6066a6b08524',0);
INSERT INTO "visits" VALUES('01a2144b-e4fa-7470-982b-ccb4ec2e05c6','01a2144b-e4b4-7118-996c-6063b8f6d533','week 1','2027-03-05','2027-03-05','2027-03-05','after a callback (infection)','nurse:01a2144b-e4b1-70a9-a52f-e8039eb6c20c','2027-03-05T10:00:00.000000Z','01a2144b-e4f0-72b3-950c-7c141cbdfb4a',0);
CREATE TABLE warnings (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, callback_id TEXT NOT NULL REFERENCES callbacks,
            rule TEXT NOT NULL, worry TEXT NOT NULL, how_soon TEXT NOT NULL, raised_at TEXT NOT NULL, severity REAL NOT NULL,
            values_json TEXT NOT NULL, threshold TEXT NOT NULL, source TEXT NOT NULL, words TEXT NOT NULL,
            rulebook TEXT NOT NULL, recorded_at TEXT NOT NULL, UNIQUE (operation_id, rule, raised_at)
        ) STRICT;
INSERT INTO "warnings" VALUES('01a2144b-e4d4-7040-93f8-8d1b125deb64','01a2144b-e4b4-7118-996c-6063b8f6d533','01a2144b-e4d3-747f-a69b-1ecfc05964a0','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e4d4-7040-93f8-8d1edbc84c4a','01a2144b-e4b4-7118-996c-6063b8f6d533','01a2144b-e4d4-7040-93f8-8d1c98afffbd','posture-missed','posture','today','2027-03-03T23:00:00.000000Z',0.75,'{"date":"2027-03-03","hours":3.0,"target_hours":12}','{"share":0.5}','CP','Only 3 of 12 hours of posturing on 2027-03-03.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e4d4-7040-93f8-8d2135685166','01a2144b-e4b4-7118-996c-6063b8f6d533','01a2144b-e4d4-7040-93f8-8d1fc58b12d0','silent-while-posturing','silence','today','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e4d4-7040-93f8-8d2332108598','01a2144b-e4b4-7118-996c-6063b8f6d533','01a2144b-e4d4-7040-93f8-8d1fc58b12d0','no-posture-entry','silence','today','2027-03-04T23:00:00.000000Z',1.0,'{"date":"2027-03-04"}','{}','CP','Nothing logged for posturing on 2027-03-04.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e4dc-77c3-852a-faaac502a035','01a2144b-e4b4-7118-996c-6063b8f6d533','01a2144b-e4dc-77c3-852a-faa8ad3aeae0','infection-suspected','infection','now','2027-03-05T09:00:00.000000Z',30.0,'{"pain":8,"vision":"worse"}','{"count":2,"signs":["pain>=4","vision=worse","redness=worse","discharge"]}','BOSU','Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e4dc-77c3-852a-faadf14a5c17','01a2144b-e4b4-7118-996c-6063b8f6d533','01a2144b-e4dc-77c3-852a-faab3bae1a99','severe-pain','pressure','now','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=7"]}','VRS','Severe pain (8 of 10): pressure and infection must be ruled out.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e4dc-77c3-852a-fab0bb1ae03f','01a2144b-e4b4-7118-996c-6063b8f6d533','01a2144b-e4dc-77c3-852a-faaebc8be76e','curtain','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"curtain":true,"pain":8}','{"count":1,"signs":["curtain"]}','Yor18','A curtain or shadow that does not move with the bubble: new detachment until shown otherwise.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e4dd-7406-adb0-0a4a623e4502','01a2144b-e4b4-7118-996c-6063b8f6d533','01a2144b-e4dc-77c3-852a-faab3bae1a99','pain','pressure','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=5"]}','VRS','Pain of 8 of 10, beyond what simple painkillers usually hold.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e4dd-7406-adb0-0a4c27bc8d78','01a2144b-e4b4-7118-996c-6063b8f6d533','01a2144b-e4dc-77c3-852a-faaebc8be76e','vision-worse','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','VRS','The patient says that the vision fell.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e4e3-7795-84c0-791702c0c035','01a2144b-e4b4-7118-996c-6063b8f6d533','01a2144b-e4dc-77c3-852a-faab3bae1a99','pressure-severe','pressure','now','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":40}','Bern12','Pressure 41 mmHg, at or above 40.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e4e3-7795-84c0-7919f14c52b4','01a2144b-e4b4-7118-996c-6063b8f6d533','01a2144b-e4dc-77c3-852a-faab3bae1a99','pressure-spike','pressure','today','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":30}','Bern12','Pressure 41 mmHg, at or above 30.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e4e3-7795-84c0-791bfe1dbd6a','01a2144b-e4b4-7118-996c-6063b8f6d533','01a2144b-e4dc-77c3-852a-faab3bae1a99','pressure-raised','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":24}','NICE','Pressure 41 mmHg, at or above 24.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e4e3-7795-84c0-791d98873dcc','01a2144b-e4b4-7118-996c-6063b8f6d533','01a2144b-e4dc-77c3-852a-faab3bae1a99','pressure-rise','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"baseline_mmhg":15,"instrument":"applanation","iop_mmhg":41.0,"pain":null,"risen_mmhg":26.0}','{"mmhg":24,"rise_mmhg":10}','NICE','Pressure 41 mmHg, 26 above this eye’s own 15.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e4eb-7675-83b7-c4e5cb115ac8','01a2144b-e4b7-77da-b4e9-e2064f83b3b9','01a2144b-e4eb-7675-83b7-c4e3a68f6820','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e4eb-7675-83b7-c4e8a048dc08','01a2144b-e4b7-77da-b4e9-e2064f83b3b9','01a2144b-e4eb-7675-83b7-c4e672415cd0','no-posture-entry','silence','today','2027-03-03T23:00:00.000000Z',1.0,'{"date":"2027-03-03"}','{}','CP','Nothing logged for posturing on 2027-03-03.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e4eb-7675-83b7-c4eaf0fec373','01a2144b-e4b7-77da-b4e9-e2064f83b3b9','01a2144b-e4eb-7675-83b7-c4e672415cd0','silent-while-posturing','silence','today','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
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
