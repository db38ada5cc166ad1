BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'followup','m001_people','2026-11-26 00:32:36.442133+00:00');
INSERT INTO "_sqlite_migrations" VALUES(2,'followup','m002_eyes','2026-11-26 00:32:36.446874+00:00');
INSERT INTO "_sqlite_migrations" VALUES(3,'followup','m003_worries','2026-11-26 00:32:36.458955+00:00');
INSERT INTO "_sqlite_migrations" VALUES(4,'followup','m004_audit','2026-11-26 00:32:36.469851+00:00');
INSERT INTO "_sqlite_migrations" VALUES(5,'followup','m005_messages','2026-11-26 00:32:36.477396+00:00');
INSERT INTO "_sqlite_migrations" VALUES(6,'followup','m006_repair','2026-11-26 00:32:36.484586+00:00');
INSERT INTO "_sqlite_migrations" VALUES(7,'followup','m007_tasks','2026-11-26 00:32:36.498635+00:00');
INSERT INTO "_sqlite_migrations" VALUES(8,'followup','m008_visit_identities','2026-11-26 00:32:36.509781+00:00');
INSERT INTO "_sqlite_migrations" VALUES(9,'followup','m009_watch','2026-11-26 00:32:36.523567+00:00');
INSERT INTO "_sqlite_migrations" VALUES(10,'followup','m011_bounds','2026-11-26 00:32:36.541175+00:00');
INSERT INTO "_sqlite_migrations" VALUES(11,'followup','m020_two_eyes','2026-11-26 00:32:36.585378+00:00');
INSERT INTO "_sqlite_migrations" VALUES(12,'followup','m021_grounds_of_warnings','2026-11-26 00:32:36.597410+00:00');
INSERT INTO "_sqlite_migrations" VALUES(13,'followup','m025_joined_by_index','2026-11-26 00:32:36.600534+00:00');
INSERT INTO "_sqlite_migrations" VALUES(14,'followup','m027_book_of_visits','2026-11-26 00:32:36.610389+00:00');
CREATE TABLE audit (
            number INTEGER PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, action TEXT NOT NULL, subject TEXT NOT NULL,
            detail TEXT NOT NULL, previous TEXT NOT NULL, hash TEXT NOT NULL
        ) STRICT;
INSERT INTO "audit" VALUES(1,'2027-03-02T14:00:00.000000Z','command line','staff added','01a21544-bf0c-765d-b38f-2727b9066d17','{"role":"nurse"}','0000000000000000000000000000000000000000000000000000000000000000','04e8a93426e2ddabba8a74af491e27d93f2d75b2839c913a18f0a187911e543b');
INSERT INTO "audit" VALUES(2,'2027-03-02T14:00:00.000000Z','command line','staff added','01a21544-bf12-7082-afdb-f5308c38edb0','{"role":"surgeon"}','04e8a93426e2ddabba8a74af491e27d93f2d75b2839c913a18f0a187911e543b','1a143263a689deefd146063920e040bb428103899ecaadf8b8002ae1c249b8a7');
INSERT INTO "audit" VALUES(3,'2027-03-02T19:00:00.000000Z','nurse:01a21544-bf0c-765d-b38f-2727b9066d17','enrolment code','01a21544-bf19-7285-ade4-379715f99eb9','null','1a143263a689deefd146063920e040bb428103899ecaadf8b8002ae1c249b8a7','f2e5c522ae1d0e4aed56c29a909436c49c61230e002f88fdd3d6a7815cf426b2');
INSERT INTO "audit" VALUES(4,'2027-03-02T19:00:00.000000Z','nurse:01a21544-bf0c-765d-b38f-2727b9066d17','discharge','01a21544-bf19-7285-ade4-3798e3e395ca','{"agent":"c2f6","eye":"right"}','f2e5c522ae1d0e4aed56c29a909436c49c61230e002f88fdd3d6a7815cf426b2','3129f688016fc14a4582ece97525baac4d8e581ce8a07e926036c9baf3e60127');
INSERT INTO "audit" VALUES(5,'2027-03-02T19:00:00.000000Z','nurse:01a21544-bf0c-765d-b38f-2727b9066d17','enrolment code','01a21544-bf28-7221-a2eb-db964b191ff6','null','3129f688016fc14a4582ece97525baac4d8e581ce8a07e926036c9baf3e60127','0e4a54b340ebae55b12129a65f9a71489bf6879f216e657362de628315891e10');
INSERT INTO "audit" VALUES(6,'2027-03-02T19:00:00.000000Z','nurse:01a21544-bf0c-765d-b38f-2727b9066d17','discharge','01a21544-bf29-755d-9520-465549dd9775','{"agent":"silicone-oil","eye":"right"}','0e4a54b340ebae55b12129a65f9a71489bf6879f216e657362de628315891e10','4d61883e44fed71c609125b793a000e4b586f1f59838282d9d79c5a97253c04a');
INSERT INTO "audit" VALUES(7,'2027-03-02T20:00:00.000000Z','patient:01a21544-bf2d-71ef-a4e5-53511a13ce78','device enrolled','01a21544-bf19-7285-ade4-379715f99eb9','null','4d61883e44fed71c609125b793a000e4b586f1f59838282d9d79c5a97253c04a','0fa4144256353895330d51ab9ec569208a91f5cc7f548b0c86f2f2df929ad812');
INSERT INTO "audit" VALUES(8,'2027-03-05T10:00:00.000000Z','patient:01a21544-bf2d-71ef-a4e5-53511a13ce78','event posture','01a21544-bf19-7285-ade4-3798e3e395ca','{"id":"0195e5a0-0000-7000-8000-000000000001"}','0fa4144256353895330d51ab9ec569208a91f5cc7f548b0c86f2f2df929ad812','202bf389acedc00635892b3517b4a1abd303cdfa0a1134e32eed9483e45fc321');
INSERT INTO "audit" VALUES(9,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21544-bf19-7285-ade4-3798e3e395ca','{"how_soon":"today","rule":"missed-early-visit"}','202bf389acedc00635892b3517b4a1abd303cdfa0a1134e32eed9483e45fc321','8145d375f178c32b62412510b33542db4a3c05652897b11b3d9e5ff9740b471a');
INSERT INTO "audit" VALUES(10,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21544-bf19-7285-ade4-3798e3e395ca','{"how_soon":"this-week","rule":"posture-missed"}','8145d375f178c32b62412510b33542db4a3c05652897b11b3d9e5ff9740b471a','73ae440342fea3cf67223d05754c5392df020414c821488eeb0dcfd9a49c71b1');
INSERT INTO "audit" VALUES(11,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21544-bf19-7285-ade4-3798e3e395ca','{"how_soon":"this-week","rule":"silent-while-posturing"}','73ae440342fea3cf67223d05754c5392df020414c821488eeb0dcfd9a49c71b1','9c7a05af83e65ea60f9f0097fc4adc6a57926fb41a80f8f4b9b19ec63a03f629');
INSERT INTO "audit" VALUES(12,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21544-bf19-7285-ade4-3798e3e395ca','{"how_soon":"this-week","rule":"no-posture-entry"}','9c7a05af83e65ea60f9f0097fc4adc6a57926fb41a80f8f4b9b19ec63a03f629','8287f3df053050ac7b2508349e66c7574c2d20ee85e63fd0cd479bdf4412bfa6');
INSERT INTO "audit" VALUES(13,'2027-03-05T10:00:00.000000Z','patient:01a21544-bf2d-71ef-a4e5-53511a13ce78','event symptoms','01a21544-bf19-7285-ade4-3798e3e395ca','{"id":"0195e5a0-0000-7000-8000-000000000002"}','8287f3df053050ac7b2508349e66c7574c2d20ee85e63fd0cd479bdf4412bfa6','55bfd41a496d3fec796e4a195e1ba1f21e04fdb075a98645268d2f9b56edab7a');
INSERT INTO "audit" VALUES(14,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21544-bf19-7285-ade4-3798e3e395ca','{"how_soon":"now","rule":"infection-suspected"}','55bfd41a496d3fec796e4a195e1ba1f21e04fdb075a98645268d2f9b56edab7a','5cfd49cf8cad126bddac6cfff73271b470b61f426af59d37292c366fa2839e96');
INSERT INTO "audit" VALUES(15,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21544-bf19-7285-ade4-3798e3e395ca','{"how_soon":"now","rule":"severe-pain"}','5cfd49cf8cad126bddac6cfff73271b470b61f426af59d37292c366fa2839e96','2f287234a85feaf21e229dc99434ee9fc5d5efd8a9d40b4da4611ff66f2ffe88');
INSERT INTO "audit" VALUES(16,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21544-bf19-7285-ade4-3798e3e395ca','{"how_soon":"today","rule":"curtain"}','2f287234a85feaf21e229dc99434ee9fc5d5efd8a9d40b4da4611ff66f2ffe88','ddf85658bccb3dda4e9e111bd060de6dab7f74bfaf904eabe9233e245f1230e5');
INSERT INTO "audit" VALUES(17,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21544-bf19-7285-ade4-3798e3e395ca','{"how_soon":"today","rule":"pain"}','ddf85658bccb3dda4e9e111bd060de6dab7f74bfaf904eabe9233e245f1230e5','e582dcf038502ab2ba230513409f4d7e879ae66771bc6bd8a67ff4a114872ca2');
INSERT INTO "audit" VALUES(18,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21544-bf19-7285-ade4-3798e3e395ca','{"how_soon":"today","rule":"vision-worse"}','e582dcf038502ab2ba230513409f4d7e879ae66771bc6bd8a67ff4a114872ca2','7a0f99565e305b7ae5a5a74d3e373eedd10ad4b91d5bed95880d7880f3329666');
INSERT INTO "audit" VALUES(19,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21544-bf19-7285-ade4-3798e3e395ca','{"how_soon":"this-week","rule":"vision-said-worse"}','7a0f99565e305b7ae5a5a74d3e373eedd10ad4b91d5bed95880d7880f3329666','661b3ca32c8d0b893284e60424f64297f6ba15f6e7cd0f3af5c28b6d65730453');
INSERT INTO "audit" VALUES(20,'2027-03-05T10:00:00.000000Z','nurse:01a21544-bf0c-765d-b38f-2727b9066d17','event measures','01a21544-bf19-7285-ade4-3798e3e395ca','{"id":"01a21544-bfa1-7613-bafd-9d22dea06be0"}','661b3ca32c8d0b893284e60424f64297f6ba15f6e7cd0f3af5c28b6d65730453','bf7fdd99fb687fd65449d5a0550749344db17afc8fc4c2d19b1a71ce6d417393');
INSERT INTO "audit" VALUES(21,'2027-03-05T10:00:00.000000Z','nurse:01a21544-bf0c-765d-b38f-2727b9066d17','event seen','01a21544-bf19-7285-ade4-3798e3e395ca','{"id":"01a21544-bfa3-7414-a81d-16a5633b6f4f"}','bf7fdd99fb687fd65449d5a0550749344db17afc8fc4c2d19b1a71ce6d417393','cafde9b9c0cd9d91c40a60b8abe89b903830cf46db4c38a55767d858af0d7065');
INSERT INTO "audit" VALUES(22,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21544-bf19-7285-ade4-3798e3e395ca','{"how_soon":"now","rule":"pressure-severe"}','cafde9b9c0cd9d91c40a60b8abe89b903830cf46db4c38a55767d858af0d7065','11e7b1bf2267282378611e4be1d72433a10be24f9aa7186f618043e8fd8122db');
INSERT INTO "audit" VALUES(23,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21544-bf19-7285-ade4-3798e3e395ca','{"how_soon":"today","rule":"pressure-spike"}','11e7b1bf2267282378611e4be1d72433a10be24f9aa7186f618043e8fd8122db','df513755c5fedf6b574ada2961aac4c14fb1ee8ac05fb80ba82c5cbcaf6dd41f');
INSERT INTO "audit" VALUES(24,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21544-bf19-7285-ade4-3798e3e395ca','{"how_soon":"this-week","rule":"pressure-raised"}','df513755c5fedf6b574ada2961aac4c14fb1ee8ac05fb80ba82c5cbcaf6dd41f','894cea854e7c5993e2ba636d2f7723ccb8dac0b13b86575177140668755cc2f1');
INSERT INTO "audit" VALUES(25,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21544-bf19-7285-ade4-3798e3e395ca','{"how_soon":"this-week","rule":"pressure-rise"}','894cea854e7c5993e2ba636d2f7723ccb8dac0b13b86575177140668755cc2f1','58b8d8d7f37a30df58bfe1b4ac3760a71b5eacb6b96b737d2ff151a62022e7a4');
INSERT INTO "audit" VALUES(26,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21544-bf19-7285-ade4-3798e3e395ca','{"how_soon":"this-week","rule":"pressure-rising"}','58b8d8d7f37a30df58bfe1b4ac3760a71b5eacb6b96b737d2ff151a62022e7a4','97f247bf97253b4c41421af48df4d1581b3590345ad50ebee67eeeca17278d87');
INSERT INTO "audit" VALUES(27,'2027-03-05T10:00:00.000000Z','nurse:01a21544-bf0c-765d-b38f-2727b9066d17','event measures','01a21544-bf29-755d-9520-465549dd9775','{"id":"01a21544-bfc8-71c6-94e5-e1f4ad30841f"}','97f247bf97253b4c41421af48df4d1581b3590345ad50ebee67eeeca17278d87','27ffeb204e14917100266d9df32bc2a06d78b05f300b7f3e4b16667627226c66');
INSERT INTO "audit" VALUES(28,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21544-bf29-755d-9520-465549dd9775','{"how_soon":"today","rule":"missed-early-visit"}','27ffeb204e14917100266d9df32bc2a06d78b05f300b7f3e4b16667627226c66','241b9993018a514d0a822bcf08bea2aa02d19b109348132c08279704755e3b28');
INSERT INTO "audit" VALUES(29,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21544-bf29-755d-9520-465549dd9775','{"how_soon":"this-week","rule":"no-posture-entry"}','241b9993018a514d0a822bcf08bea2aa02d19b109348132c08279704755e3b28','a91d536fad13fe5075cc4f2b62ffca4ecba615cdce85683f6ba4b9c3a0d13cfe');
INSERT INTO "audit" VALUES(30,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21544-bf29-755d-9520-465549dd9775','{"how_soon":"this-week","rule":"silent-while-posturing"}','a91d536fad13fe5075cc4f2b62ffca4ecba615cdce85683f6ba4b9c3a0d13cfe','4485982ee91bfaf6825b5791dd8a2aa9a5808c1cb6805bd67591f09386867763');
INSERT INTO "audit" VALUES(31,'2027-03-05T10:00:00.000000Z','nurse:01a21544-bf0c-765d-b38f-2727b9066d17','callback claimed','01a21544-bf83-73ea-acc6-fbb4f2026cd0','null','4485982ee91bfaf6825b5791dd8a2aa9a5808c1cb6805bd67591f09386867763','6191ca7316525d53e2e233dfbcd97cb39036a5595e019b3d3b616f9a98c63e2e');
INSERT INTO "audit" VALUES(32,'2027-03-05T10:00:00.000000Z','nurse:01a21544-bf0c-765d-b38f-2727b9066d17','callback attempt','01a21544-bf83-73ea-acc6-fbb4f2026cd0','{"reached":true}','6191ca7316525d53e2e233dfbcd97cb39036a5595e019b3d3b616f9a98c63e2e','b9234f22c0e2105df3400ddec19a6c7487239d2c2e682dc22cecc4d173c4fa69');
INSERT INTO "audit" VALUES(33,'2027-03-05T10:00:00.000000Z','nurse:01a21544-bf0c-765d-b38f-2727b9066d17','callback settled','01a21544-bf83-73ea-acc6-fbb4f2026cd0','{"outcome":"advice"}','b9234f22c0e2105df3400ddec19a6c7487239d2c2e682dc22cecc4d173c4fa69','e52ef9e0be8c5b091144bfc52cb59a0683b040b61eaa3fcc223868af50218c87');
INSERT INTO "audit" VALUES(34,'2027-03-05T10:00:00.000000Z','surgeon:01a21544-bf12-7082-afdb-f5308c38edb0','protocol signed','reviews','{"fingerprint":"94682d816bcc0e77"}','e52ef9e0be8c5b091144bfc52cb59a0683b040b61eaa3fcc223868af50218c87','85e1dfcb863397df13f885e89e248200cd936c5e595b826eb9c261d82b01c5f7');
CREATE TABLE callback_steps (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks, at TEXT NOT NULL, who TEXT NOT NULL,
            step TEXT NOT NULL, detail TEXT NOT NULL
        ) STRICT;
INSERT INTO "callback_steps" VALUES('01a21544-bf66-7252-aa7b-932f5a24de1c','01a21544-bf66-7252-aa7b-932e9115005b','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a21544-bf66-7252-aa7b-93321d3e716a','01a21544-bf66-7252-aa7b-93313dbdc923','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"posture-missed","words":"Only 3 of 12 hours of posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a21544-bf66-7252-aa7b-933504cbea95','01a21544-bf66-7252-aa7b-9334b1e54286','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a21544-bf67-7392-95b4-3ae1518b45c2','01a21544-bf66-7252-aa7b-9334b1e54286','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-04."}');
INSERT INTO "callback_steps" VALUES('01a21544-bf83-73ea-acc6-fbb58f9ec81a','01a21544-bf83-73ea-acc6-fbb4f2026cd0','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"infection-suspected","words":"Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five."}');
INSERT INTO "callback_steps" VALUES('01a21544-bf83-73ea-acc6-fbb894626a34','01a21544-bf83-73ea-acc6-fbb7d1294e68','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"severe-pain","words":"Severe pain (8 of 10): pressure and infection must be ruled out."}');
INSERT INTO "callback_steps" VALUES('01a21544-bf83-73ea-acc6-fbbb5a758851','01a21544-bf83-73ea-acc6-fbbac10cc9cf','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"curtain","words":"A curtain or shadow that does not move with the bubble: new detachment until shown otherwise."}');
INSERT INTO "callback_steps" VALUES('01a21544-bf84-7260-84f8-9981ab96cd4b','01a21544-bf83-73ea-acc6-fbb7d1294e68','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pain","words":"Pain of 8 of 10, beyond what simple painkillers usually hold."}');
INSERT INTO "callback_steps" VALUES('01a21544-bf84-7260-84f8-998307e6ef73','01a21544-bf83-73ea-acc6-fbbac10cc9cf','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"vision-worse","words":"The patient says that the vision fell."}');
INSERT INTO "callback_steps" VALUES('01a21544-bf84-7260-84f8-99856979fec5','01a21544-bf83-73ea-acc6-fbbac10cc9cf','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"vision-said-worse","words":"The patient said that the vision fell. Ask again, whatever the second look said."}');
INSERT INTO "callback_steps" VALUES('01a21544-bfb5-74d3-b4a8-b088f9d5fe29','01a21544-bf83-73ea-acc6-fbb7d1294e68','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"now","rule":"pressure-severe","words":"Pressure 41 mmHg, at or above 40."}');
INSERT INTO "callback_steps" VALUES('01a21544-bfb5-74d3-b4a8-b08a5dc395eb','01a21544-bf83-73ea-acc6-fbb7d1294e68','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pressure-spike","words":"Pressure 41 mmHg, at or above 30."}');
INSERT INTO "callback_steps" VALUES('01a21544-bfb5-74d3-b4a8-b08c77f3ab4e','01a21544-bf83-73ea-acc6-fbb7d1294e68','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-raised","words":"Pressure 41 mmHg, at or above 24."}');
INSERT INTO "callback_steps" VALUES('01a21544-bfb5-74d3-b4a8-b08e2c7a81dc','01a21544-bf83-73ea-acc6-fbb7d1294e68','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rise","words":"Pressure 41 mmHg, 26 above this eye’s own 15."}');
INSERT INTO "callback_steps" VALUES('01a21544-bfb6-70f2-a974-4419fdda3096','01a21544-bf83-73ea-acc6-fbb7d1294e68','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rising","words":"Pressure 41 mmHg, 26 above what is usual for this eye (15)."}');
INSERT INTO "callback_steps" VALUES('01a21544-bfd2-737f-99fe-08322c88ede9','01a21544-bfd2-737f-99fe-08314d47742f','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a21544-bfd2-737f-99fe-083575354834','01a21544-bfd2-737f-99fe-0834e1fb0b24','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a21544-bfd3-72ab-940c-82bab7b6e52f','01a21544-bfd2-737f-99fe-0834e1fb0b24','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a21544-c08f-7685-9c26-53873dafb26e','01a21544-bf83-73ea-acc6-fbb4f2026cd0','2027-03-05T10:00:00.000000Z','nurse:01a21544-bf0c-765d-b38f-2727b9066d17','claimed','{"by":"Nora Nurse"}');
INSERT INTO "callback_steps" VALUES('01a21544-c099-71e6-9bd3-09cbeb23cd7c','01a21544-bf83-73ea-acc6-fbb4f2026cd0','2027-03-05T10:00:00.000000Z','nurse:01a21544-bf0c-765d-b38f-2727b9066d17','reached','{"by":"Nora Nurse","next_try":null,"spoke_to":"patient","words":"comes at once"}');
INSERT INTO "callback_steps" VALUES('01a21544-c0bd-767a-a01a-49dfb8e3c56f','01a21544-bf83-73ea-acc6-fbb4f2026cd0','2027-03-05T10:00:00.000000Z','nurse:01a21544-bf0c-765d-b38f-2727b9066d17','settled','{"by":"Nora Nurse","outcome":"advice","words":"comes at two"}');
CREATE TABLE callbacks (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", worry TEXT NOT NULL,
            how_soon TEXT NOT NULL CHECK (how_soon IN ('now', 'today', 'this-week')),
            opened_at TEXT NOT NULL, due_at TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('waiting', 'claimed', 'settled')),
            claimed_by TEXT REFERENCES staff, claimed_at TEXT, settled_at TEXT, outcome TEXT,
            level INTEGER NOT NULL DEFAULT 0
        , settled_by TEXT REFERENCES staff, next_try_at TEXT, moved_up INTEGER NOT NULL DEFAULT 0) STRICT;
INSERT INTO "callbacks" VALUES('01a21544-bf66-7252-aa7b-932e9115005b','01a21544-bf19-7285-ade4-3798e3e395ca','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21544-bf66-7252-aa7b-93313dbdc923','01a21544-bf19-7285-ade4-3798e3e395ca','posture','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21544-bf66-7252-aa7b-9334b1e54286','01a21544-bf19-7285-ade4-3798e3e395ca','silence','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21544-bf83-73ea-acc6-fbb4f2026cd0','01a21544-bf19-7285-ade4-3798e3e395ca','infection','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','settled','01a21544-bf0c-765d-b38f-2727b9066d17','2027-03-05T10:00:00.000000Z','2027-03-05T10:00:00.000000Z','advice',0,'01a21544-bf0c-765d-b38f-2727b9066d17',NULL,0);
INSERT INTO "callbacks" VALUES('01a21544-bf83-73ea-acc6-fbb7d1294e68','01a21544-bf19-7285-ade4-3798e3e395ca','pressure','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21544-bf83-73ea-acc6-fbbac10cc9cf','01a21544-bf19-7285-ade4-3798e3e395ca','retina','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21544-bfd2-737f-99fe-08314d47742f','01a21544-bf29-755d-9520-465549dd9775','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21544-bfd2-737f-99fe-0834e1fb0b24','01a21544-bf29-755d-9520-465549dd9775','silence','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
CREATE TABLE closures (
            number INTEGER PRIMARY KEY, day TEXT NOT NULL CHECK (date(day, '+0 days') IS day),
            closed INTEGER NOT NULL CHECK (closed IN (0, 1)), why TEXT NOT NULL, recorded_by TEXT NOT NULL,
            recorded_at TEXT NOT NULL
        ) STRICT;
CREATE TABLE devices (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, token_hash TEXT NOT NULL UNIQUE,
            used_by TEXT NOT NULL, enrolled_at TEXT NOT NULL, heard_at TEXT NOT NULL, revoked_at TEXT, revoked_by TEXT
        ) STRICT;
INSERT INTO "devices" VALUES('01a21544-bf2d-71ef-a4e5-53511a13ce78','01a21544-bf19-7285-ade4-379715f99eb9','1c94f2b0395345182524c74bbccfe8d1ad4d18aea40a1f00806653591cb3e69c','patient','2027-03-02T20:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,NULL);
CREATE TABLE enrolments (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, code_hash TEXT NOT NULL UNIQUE,
            created_by TEXT NOT NULL, created_at TEXT NOT NULL, expires_at TEXT NOT NULL,
            used_at TEXT, wrong_tries INTEGER NOT NULL DEFAULT 0
        ) STRICT;
INSERT INTO "enrolments" VALUES('01a21544-bf1b-74c2-85f3-2b842586aa4f','01a21544-bf19-7285-ade4-379715f99eb9','cbd3b8f415493fd3c1a6c458bbe6bc95a0baf79703f5bf53ddf7c6bd1a9898dc','nurse:01a21544-bf0c-765d-b38f-2727b9066d17','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z','2027-03-02T20:00:00.000000Z',0);
INSERT INTO "enrolments" VALUES('01a21544-bf29-755d-9520-465c781410df','01a21544-bf28-7221-a2eb-db964b191ff6','cc0a906d84236d50460601679be3a231043d515789a343a5cd247351c94b9cfb','nurse:01a21544-bf0c-765d-b38f-2727b9066d17','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z',NULL,0);
CREATE TABLE events (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", kind TEXT NOT NULL, at TEXT NOT NULL,
            body TEXT NOT NULL, author TEXT NOT NULL, device_id TEXT REFERENCES devices, sequence INTEGER,
            offset_minutes INTEGER, device_at TEXT, received_at TEXT NOT NULL, corrects TEXT REFERENCES events
        , reason TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000001','01a21544-bf19-7285-ade4-3798e3e395ca','posture','2027-03-05T09:00:00.000000Z','{"from":"2027-03-03T08:00:00Z","position":"face-down","to":"2027-03-03T11:00:00Z"}','patient:01a21544-bf2d-71ef-a4e5-53511a13ce78','01a21544-bf2d-71ef-a4e5-53511a13ce78',1,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000002','01a21544-bf19-7285-ade4-3798e3e395ca','symptoms','2027-03-05T09:00:00.000000Z','{"cannot_tell":[],"curtain":true,"pain":8,"vision":"worse","words":""}','patient:01a21544-bf2d-71ef-a4e5-53511a13ce78','01a21544-bf2d-71ef-a4e5-53511a13ce78',2,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21544-bfa1-7613-bafd-9d22dea06be0','01a21544-bf19-7285-ade4-3798e3e395ca','measures','2027-03-05T10:00:00.000000Z','{"acuity":"6/60","bubble_percent":85.0,"eye":"right","findings":[],"instrument":"applanation","iop_mmhg":41.0,"notes":""}','nurse:01a21544-bf0c-765d-b38f-2727b9066d17',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21544-bfa3-7414-a81d-16a5633b6f4f','01a21544-bf19-7285-ade4-3798e3e395ca','seen','2027-03-05T10:00:00.000000Z','{"visit":"day 1","visit_id":"01a21544-bf1b-74c2-85f3-2b81dbbaa5b3"}','nurse:01a21544-bf0c-765d-b38f-2727b9066d17',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21544-bfc8-71c6-94e5-e1f4ad30841f','01a21544-bf29-755d-9520-465549dd9775','measures','2027-03-05T10:00:00.000000Z','{"acuity":"HM","eye":"right","findings":[],"iop_mmhg":14.0,"notes":""}','nurse:01a21544-bf0c-765d-b38f-2727b9066d17',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21544-c099-71e6-9bd3-09cc42e11849','01a21544-bf19-7285-ade4-3798e3e395ca','heard','2027-03-05T10:00:00.000000Z','{"words":"comes at once"}','nurse:01a21544-bf0c-765d-b38f-2727b9066d17',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
CREATE TABLE "eyes" (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, created_at TEXT NOT NULL, ended_at TEXT
        , side TEXT CHECK (side IN ('right', 'left')), followed_since TEXT, end_reason TEXT, joined_into TEXT REFERENCES eyes) STRICT;
INSERT INTO "eyes" VALUES('01a21544-bf19-7285-ade4-3798e3e395ca','01a21544-bf19-7285-ade4-379715f99eb9','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a21544-bf19-7285-ade4-379969789461','01a21544-bf19-7285-ade4-379715f99eb9','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
INSERT INTO "eyes" VALUES('01a21544-bf29-755d-9520-465549dd9775','01a21544-bf28-7221-a2eb-db964b191ff6','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a21544-bf29-755d-9520-4656501cc559','01a21544-bf28-7221-a2eb-db964b191ff6','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
CREATE TABLE faults (
            what TEXT NOT NULL, about TEXT NOT NULL, words TEXT NOT NULL, first_at TEXT NOT NULL, last_at TEXT NOT NULL,
            times INTEGER NOT NULL DEFAULT 1, PRIMARY KEY (what, about)
        ) STRICT;
CREATE TABLE follow_ups (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, at TEXT NOT NULL,
            what TEXT NOT NULL CHECK (what IN ('begun', 'ended', 'resumed')), reason TEXT NOT NULL, words TEXT NOT NULL,
            recorded_by TEXT NOT NULL
        ) STRICT;
INSERT INTO "follow_ups" VALUES('01a21544-bf1b-74c2-85f3-2b83586e2980','01a21544-bf19-7285-ade4-3798e3e395ca','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a21544-bf0c-765d-b38f-2727b9066d17');
INSERT INTO "follow_ups" VALUES('01a21544-bf29-755d-9520-465b767c3c22','01a21544-bf29-755d-9520-465549dd9775','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a21544-bf0c-765d-b38f-2727b9066d17');
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
INSERT INTO "operation_records" VALUES('01a21544-bf1b-74c2-85f3-2b8002b5bedb','01a21544-bf1b-74c2-85f3-2b7fea22e7ef','right','2027-03-02T14:00:00.000000Z','c2f6','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":95.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":16.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a21544-bf0c-765d-b38f-2727b9066d17','2027-03-02T19:00:00.000000Z','');
INSERT INTO "operation_records" VALUES('01a21544-bf29-755d-9520-465832d468ad','01a21544-bf29-755d-9520-4657ec465aa8','right','2027-03-02T14:00:00.000000Z','silicone-oil','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":90.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":0.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a21544-bf0c-765d-b38f-2727b9066d17','2027-03-02T19:00:00.000000Z','');
CREATE TABLE operations (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, created_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "operations" VALUES('01a21544-bf1b-74c2-85f3-2b7fea22e7ef','01a21544-bf19-7285-ade4-3798e3e395ca','2027-03-02T19:00:00.000000Z');
INSERT INTO "operations" VALUES('01a21544-bf29-755d-9520-4657ec465aa8','01a21544-bf29-755d-9520-465549dd9775','2027-03-02T19:00:00.000000Z');
CREATE TABLE patient_terms (term TEXT NOT NULL, patient_id TEXT NOT NULL REFERENCES patients) STRICT;
INSERT INTO "patient_terms" VALUES('1','01a21544-bf19-7285-ade4-379715f99eb9');
INSERT INTO "patient_terms" VALUES('s','01a21544-bf19-7285-ade4-379715f99eb9');
INSERT INTO "patient_terms" VALUES('009876','01a21544-bf19-7285-ade4-379715f99eb9');
INSERT INTO "patient_terms" VALUES('ia','01a21544-bf19-7285-ade4-379715f99eb9');
INSERT INTO "patient_terms" VALUES('rson','01a21544-bf19-7285-ade4-379715f99eb9');
INSERT INTO "patient_terms" VALUES('son','01a21544-bf19-7285-ade4-379715f99eb9');
INSERT INTO "patient_terms" VALUES('s1','01a21544-bf19-7285-ade4-379715f99eb9');
INSERT INTO "patient_terms" VALUES('876','01a21544-bf19-7285-ade4-379715f99eb9');
INSERT INTO "patient_terms" VALUES('76','01a21544-bf19-7285-ade4-379715f99eb9');
INSERT INTO "patient_terms" VALUES('9','01a21544-bf19-7285-ade4-379715f99eb9');
INSERT INTO "patient_terms" VALUES('on','01a21544-bf19-7285-ade4-379715f99eb9');
INSERT INTO "patient_terms" VALUES('pia','01a21544-bf19-7285-ade4-379715f99eb9');
INSERT INTO "patient_terms" VALUES('person','01a21544-bf19-7285-ade4-379715f99eb9');
INSERT INTO "patient_terms" VALUES('00','01a21544-bf19-7285-ade4-379715f99eb9');
INSERT INTO "patient_terms" VALUES('erson','01a21544-bf19-7285-ade4-379715f99eb9');
INSERT INTO "patient_terms" VALUES('9876','01a21544-bf19-7285-ade4-379715f99eb9');
INSERT INTO "patient_terms" VALUES('09876','01a21544-bf19-7285-ade4-379715f99eb9');
INSERT INTO "patient_terms" VALUES('s','01a21544-bf28-7221-a2eb-db964b191ff6');
INSERT INTO "patient_terms" VALUES('other','01a21544-bf28-7221-a2eb-db964b191ff6');
INSERT INTO "patient_terms" VALUES('009876','01a21544-bf28-7221-a2eb-db964b191ff6');
INSERT INTO "patient_terms" VALUES('2','01a21544-bf28-7221-a2eb-db964b191ff6');
INSERT INTO "patient_terms" VALUES('laf','01a21544-bf28-7221-a2eb-db964b191ff6');
INSERT INTO "patient_terms" VALUES('876','01a21544-bf28-7221-a2eb-db964b191ff6');
INSERT INTO "patient_terms" VALUES('er','01a21544-bf28-7221-a2eb-db964b191ff6');
INSERT INTO "patient_terms" VALUES('76','01a21544-bf28-7221-a2eb-db964b191ff6');
INSERT INTO "patient_terms" VALUES('9','01a21544-bf28-7221-a2eb-db964b191ff6');
INSERT INTO "patient_terms" VALUES('her','01a21544-bf28-7221-a2eb-db964b191ff6');
INSERT INTO "patient_terms" VALUES('s2','01a21544-bf28-7221-a2eb-db964b191ff6');
INSERT INTO "patient_terms" VALUES('ther','01a21544-bf28-7221-a2eb-db964b191ff6');
INSERT INTO "patient_terms" VALUES('00','01a21544-bf28-7221-a2eb-db964b191ff6');
INSERT INTO "patient_terms" VALUES('9876','01a21544-bf28-7221-a2eb-db964b191ff6');
INSERT INTO "patient_terms" VALUES('af','01a21544-bf28-7221-a2eb-db964b191ff6');
INSERT INTO "patient_terms" VALUES('09876','01a21544-bf28-7221-a2eb-db964b191ff6');
INSERT INTO "patient_terms" VALUES('olaf','01a21544-bf28-7221-a2eb-db964b191ff6');
CREATE TABLE patients (
            id TEXT PRIMARY KEY, number TEXT NOT NULL UNIQUE, name TEXT NOT NULL, born_on TEXT NOT NULL,
            phone TEXT NOT NULL, language TEXT NOT NULL, created_at TEXT NOT NULL
        , joined_into TEXT REFERENCES patients) STRICT;
INSERT INTO "patients" VALUES('01a21544-bf19-7285-ade4-379715f99eb9','S-1','Pia Person','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL);
INSERT INTO "patients" VALUES('01a21544-bf28-7221-a2eb-db964b191ff6','S-2','Olaf Other','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL);
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
INSERT INTO "refused_events" VALUES('0195e5a0-0000-7000-8000-000000000003','01a21544-bf19-7285-ade4-3798e3e395ca','01a21544-bf2d-71ef-a4e5-53511a13ce78','{"id": "0195e5a0-0000-7000-8000-000000000003", "operation": "01a21544-bf19-7285-ade4-3798e3e395ca", "kind": "symptoms", "at": "2027-03-05T09:00:00Z", "offset_minutes": 60, "sequence": 3, "by": "patient", "body": {"pain": 99}}','pain: Input should be less than or equal to 10','2027-03-05T10:00:00.000000Z');
CREATE TABLE settings (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
CREATE TABLE signatures (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, fingerprint TEXT NOT NULL, signed_by TEXT NOT NULL REFERENCES staff,
            signed_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "signatures" VALUES('01a21544-c0ce-7369-988d-9c08c77f4878','reviews','94682d816bcc0e77','01a21544-bf12-7082-afdb-f5308c38edb0','2027-03-05T10:00:00.000000Z');
CREATE TABLE staff (
            id TEXT PRIMARY KEY, name TEXT NOT NULL, role TEXT NOT NULL CHECK (role IN ('nurse', 'surgeon')),
            email TEXT NOT NULL UNIQUE, password_hash TEXT NOT NULL, created_at TEXT NOT NULL, left_at TEXT
        ) STRICT;
INSERT INTO "staff" VALUES('01a21544-bf0c-765d-b38f-2727b9066d17','Nora Nurse','nurse','nurse@test.invalid','$argon2id$v=19$m=8,t=1,p=1$YJ/EAcxMPmIk+GAqomTWsw$hvznxpTxsS2fuGArJ05dDMvUJ1UXltvZM8e+eqrQ1RU','2027-03-02T14:00:00.000000Z',NULL);
INSERT INTO "staff" VALUES('01a21544-bf12-7082-afdb-f5308c38edb0','Sol Surgeon','surgeon','surgeon@test.invalid','$argon2id$v=19$m=8,t=1,p=1$eGSzsXZjrB0cSLiQth9DxQ$drAodU00Smgu5sHyi/mouMLjzsWqfyJAqVHyPoSEUtc','2027-03-02T14:00:00.000000Z',NULL);
CREATE TABLE tasks (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks,
            eye_id TEXT NOT NULL REFERENCES "eyes", kind TEXT NOT NULL, words TEXT NOT NULL, visit_id TEXT,
            owner TEXT REFERENCES staff, due_at TEXT NOT NULL, made_by TEXT NOT NULL REFERENCES staff, made_at TEXT NOT NULL,
            told_at TEXT, done_at TEXT, done_by TEXT REFERENCES staff, done_words TEXT NOT NULL DEFAULT '',
            given_up INTEGER NOT NULL DEFAULT 0
        ) STRICT;
CREATE TABLE tries (what TEXT NOT NULL, key TEXT NOT NULL, at TEXT NOT NULL) STRICT;
CREATE TABLE visits (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", name TEXT NOT NULL,
            target TEXT NOT NULL, earliest TEXT NOT NULL, latest TEXT NOT NULL, reason TEXT NOT NULL,
            recorded_by TEXT NOT NULL, recorded_at TEXT NOT NULL, replaces TEXT REFERENCES visits,
            withdrawn INTEGER NOT NULL DEFAULT 0
        , identity TEXT NOT NULL DEFAULT '', starts TEXT
            CHECK (starts IS NULL OR (starts GLOB '[0-2][0-9]:[0-5][0-9]' AND starts < '24:00')), why TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "visits" VALUES('01a21544-bf1b-74c2-85f3-2b81dbbaa5b3','01a21544-bf19-7285-ade4-3798e3e395ca','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a21544-bf0c-765d-b38f-2727b9066d17','2027-03-02T19:00:00.000000Z',NULL,0,'01a21544-bf1b-74c2-85f3-2b81dbbaa5b3',NULL,'');
INSERT INTO "visits" VALUES('01a21544-bf1b-74c2-85f3-2b820408b75d','01a21544-bf19-7285-ade4-3798e3e395ca','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a21544-bf0c-765d-b38f-2727b9066d17','2027-03-02T19:00:00.000000Z',NULL,0,'01a21544-bf1b-74c2-85f3-2b820408b75d',NULL,'');
INSERT INTO "visits" VALUES('01a21544-bf29-755d-9520-46596b596135','01a21544-bf29-755d-9520-465549dd9775','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a21544-bf0c-765d-b38f-2727b9066d17','2027-03-02T19:00:00.000000Z',NULL,0,'01a21544-bf29-755d-9520-46596b596135',NULL,'');
INSERT INTO "visits" VALUES('01a21544-bf29-755d-9520-465a4b2dc1c5','01a21544-bf29-755d-9520-465549dd9775','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a21544-bf0c-765d-b38f-2727b9066d17','2027-03-02T19:00:00.000000Z',NULL,0,'01a21544-bf29-755d-9520-465a4b2dc1c5',NULL,'');
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
INSERT INTO "warnings" VALUES('01a21544-bf66-7252-aa7b-933068da4749','01a21544-bf19-7285-ade4-3798e3e395ca','01a21544-bf66-7252-aa7b-932e9115005b','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21544-bf66-7252-aa7b-9333f511fde6','01a21544-bf19-7285-ade4-3798e3e395ca','01a21544-bf66-7252-aa7b-93313dbdc923','posture-missed','posture','this-week','2027-03-03T23:00:00.000000Z',0.75,'{"date":"2027-03-03","hours":3.0,"target_hours":12}','{"share":0.5}','CP','Only 3 of 12 hours of posturing on 2027-03-03.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21544-bf66-7252-aa7b-933676822997','01a21544-bf19-7285-ade4-3798e3e395ca','01a21544-bf66-7252-aa7b-9334b1e54286','silent-while-posturing','silence','this-week','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21544-bf67-7392-95b4-3ae2ad2fd7aa','01a21544-bf19-7285-ade4-3798e3e395ca','01a21544-bf66-7252-aa7b-9334b1e54286','no-posture-entry','silence','this-week','2027-03-04T23:00:00.000000Z',1.0,'{"date":"2027-03-04"}','{}','CP','Nothing logged for posturing on 2027-03-04.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21544-bf83-73ea-acc6-fbb64a2de321','01a21544-bf19-7285-ade4-3798e3e395ca','01a21544-bf83-73ea-acc6-fbb4f2026cd0','infection-suspected','infection','now','2027-03-05T09:00:00.000000Z',30.0,'{"pain":8,"vision":"worse"}','{"count":2,"signs":["pain>=4","vision=worse","redness=worse","discharge"]}','BOSU','Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21544-bf83-73ea-acc6-fbb96f9c5c6d','01a21544-bf19-7285-ade4-3798e3e395ca','01a21544-bf83-73ea-acc6-fbb7d1294e68','severe-pain','pressure','now','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=7"]}','VRS','Severe pain (8 of 10): pressure and infection must be ruled out.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21544-bf83-73ea-acc6-fbbc9496da17','01a21544-bf19-7285-ade4-3798e3e395ca','01a21544-bf83-73ea-acc6-fbbac10cc9cf','curtain','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"curtain":true,"pain":8}','{"count":1,"signs":["curtain"]}','RD14','A curtain or shadow that does not move with the bubble: new detachment until shown otherwise.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21544-bf84-7260-84f8-9982cbec98c9','01a21544-bf19-7285-ade4-3798e3e395ca','01a21544-bf83-73ea-acc6-fbb7d1294e68','pain','pressure','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=5"]}','VRS','Pain of 8 of 10, beyond what simple painkillers usually hold.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21544-bf84-7260-84f8-9984fbadadbe','01a21544-bf19-7285-ade4-3798e3e395ca','01a21544-bf83-73ea-acc6-fbbac10cc9cf','vision-worse','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','Hol09','The patient says that the vision fell.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21544-bf84-7260-84f8-998621004db4','01a21544-bf19-7285-ade4-3798e3e395ca','01a21544-bf83-73ea-acc6-fbbac10cc9cf','vision-said-worse','retina','this-week','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','Hol09','The patient said that the vision fell. Ask again, whatever the second look said.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21544-bfb5-74d3-b4a8-b08947556c0b','01a21544-bf19-7285-ade4-3798e3e395ca','01a21544-bf83-73ea-acc6-fbb7d1294e68','pressure-severe','pressure','now','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":40}','Bern12','Pressure 41 mmHg, at or above 40.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21544-bfb5-74d3-b4a8-b08b15dfc2a4','01a21544-bf19-7285-ade4-3798e3e395ca','01a21544-bf83-73ea-acc6-fbb7d1294e68','pressure-spike','pressure','today','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":30}','Bern12','Pressure 41 mmHg, at or above 30.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21544-bfb5-74d3-b4a8-b08dd0813117','01a21544-bf19-7285-ade4-3798e3e395ca','01a21544-bf83-73ea-acc6-fbb7d1294e68','pressure-raised','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":24}','NICE','Pressure 41 mmHg, at or above 24.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21544-bfb5-74d3-b4a8-b08fb6e7bc5b','01a21544-bf19-7285-ade4-3798e3e395ca','01a21544-bf83-73ea-acc6-fbb7d1294e68','pressure-rise','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"baseline_mmhg":15,"instrument":"applanation","iop_mmhg":41.0,"pain":null,"risen_mmhg":26.0}','{"mmhg":24,"rise_mmhg":10}','LOH19','Pressure 41 mmHg, 26 above this eye’s own 15.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21544-bfb6-70f2-a974-441af96620e0','01a21544-bf19-7285-ade4-3798e3e395ca','01a21544-bf83-73ea-acc6-fbb7d1294e68','pressure-rising','pressure','this-week','2027-03-05T10:00:00.000000Z',26.0,'{"instrument":"applanation","iop_mmhg":41.0,"moved_mmhg":26.0,"pain":null,"usual_mmhg":15}','{"by_mmhg":5,"direction":"up","mmhg":18}','SIO','Pressure 41 mmHg, 26 above what is usual for this eye (15).','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21544-bfd2-737f-99fe-08335df87f45','01a21544-bf29-755d-9520-465549dd9775','01a21544-bfd2-737f-99fe-08314d47742f','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21544-bfd2-737f-99fe-08363c867a2b','01a21544-bf29-755d-9520-465549dd9775','01a21544-bfd2-737f-99fe-0834e1fb0b24','no-posture-entry','silence','this-week','2027-03-03T23:00:00.000000Z',1.0,'{"date":"2027-03-03"}','{}','CP','Nothing logged for posturing on 2027-03-03.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21544-bfd3-72ab-940c-82bb1d84e6e1','01a21544-bf29-755d-9520-465549dd9775','01a21544-bfd2-737f-99fe-0834e1fb0b24','silent-while-posturing','silence','this-week','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
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
CREATE INDEX closures_of_day ON closures (day, number);
CREATE TRIGGER closures_keeps_update BEFORE UPDATE ON closures BEGIN SELECT RAISE(ABORT, 'closures is append-only: record a correction instead'); END;
CREATE TRIGGER closures_keeps_delete BEFORE DELETE ON closures BEGIN SELECT RAISE(ABORT, 'closures is append-only: record a correction instead'); END;
COMMIT;
