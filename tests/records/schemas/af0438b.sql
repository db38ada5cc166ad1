BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'followup','m001_people','2026-11-25 23:59:10.074025+00:00');
INSERT INTO "_sqlite_migrations" VALUES(2,'followup','m002_eyes','2026-11-25 23:59:10.078632+00:00');
INSERT INTO "_sqlite_migrations" VALUES(3,'followup','m003_worries','2026-11-25 23:59:10.086868+00:00');
INSERT INTO "_sqlite_migrations" VALUES(4,'followup','m004_audit','2026-11-25 23:59:10.093355+00:00');
INSERT INTO "_sqlite_migrations" VALUES(5,'followup','m005_messages','2026-11-25 23:59:10.097769+00:00');
INSERT INTO "_sqlite_migrations" VALUES(6,'followup','m006_repair','2026-11-25 23:59:10.100626+00:00');
INSERT INTO "_sqlite_migrations" VALUES(7,'followup','m007_tasks','2026-11-25 23:59:10.106396+00:00');
INSERT INTO "_sqlite_migrations" VALUES(8,'followup','m008_visit_identities','2026-11-25 23:59:10.112678+00:00');
INSERT INTO "_sqlite_migrations" VALUES(9,'followup','m009_watch','2026-11-25 23:59:10.116987+00:00');
INSERT INTO "_sqlite_migrations" VALUES(10,'followup','m011_bounds','2026-11-25 23:59:10.120931+00:00');
INSERT INTO "_sqlite_migrations" VALUES(11,'followup','m020_two_eyes','2026-11-25 23:59:10.163142+00:00');
INSERT INTO "_sqlite_migrations" VALUES(12,'followup','m021_grounds_of_warnings','2026-11-25 23:59:10.170961+00:00');
INSERT INTO "_sqlite_migrations" VALUES(13,'followup','m025_joined_by_index','2026-11-25 23:59:10.176614+00:00');
INSERT INTO "_sqlite_migrations" VALUES(14,'followup','m026_one_call','2026-11-25 23:59:10.186163+00:00');
CREATE TABLE audit (
            number INTEGER PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, action TEXT NOT NULL, subject TEXT NOT NULL,
            detail TEXT NOT NULL, previous TEXT NOT NULL, hash TEXT NOT NULL
        ) STRICT;
INSERT INTO "audit" VALUES(1,'2027-03-02T14:00:00.000000Z','command line','staff added','01a21526-216c-7461-bb2a-a659b53d2e9e','{"role":"nurse"}','0000000000000000000000000000000000000000000000000000000000000000','6b14ce3c4f13d14eb8c188e4544c009b04940bd62b99e2bdaaeb883c9c19f5ef');
INSERT INTO "audit" VALUES(2,'2027-03-02T14:00:00.000000Z','command line','staff added','01a21526-2174-75ff-8816-22e5f17e8de9','{"role":"surgeon"}','6b14ce3c4f13d14eb8c188e4544c009b04940bd62b99e2bdaaeb883c9c19f5ef','1b28b3c0cd865072e318d431732fb55d25aa09a61feca2d6a537ea79fd5fd09f');
INSERT INTO "audit" VALUES(3,'2027-03-02T19:00:00.000000Z','nurse:01a21526-216c-7461-bb2a-a659b53d2e9e','enrolment code','01a21526-217c-7559-9480-4eea60a64e2e','null','1b28b3c0cd865072e318d431732fb55d25aa09a61feca2d6a537ea79fd5fd09f','d131cdc87ef7fa2a21267d68bc62990e4b375ad97e5cb0d1d95aac491703f8c7');
INSERT INTO "audit" VALUES(4,'2027-03-02T19:00:00.000000Z','nurse:01a21526-216c-7461-bb2a-a659b53d2e9e','discharge','01a21526-217c-7559-9480-4eebc0402c18','{"agent":"c2f6","eye":"right"}','d131cdc87ef7fa2a21267d68bc62990e4b375ad97e5cb0d1d95aac491703f8c7','ff82a5eaf18d40d555a151393c89f775ca5495ecc7e7efe8ab992949e76579ca');
INSERT INTO "audit" VALUES(5,'2027-03-02T19:00:00.000000Z','nurse:01a21526-216c-7461-bb2a-a659b53d2e9e','enrolment code','01a21526-218c-72f1-a0ed-c5a08d28abf1','null','ff82a5eaf18d40d555a151393c89f775ca5495ecc7e7efe8ab992949e76579ca','09307fe777672235316e5215d55169b8c59b8847ace73fe89791f002da26218a');
INSERT INTO "audit" VALUES(6,'2027-03-02T19:00:00.000000Z','nurse:01a21526-216c-7461-bb2a-a659b53d2e9e','discharge','01a21526-218c-72f1-a0ed-c5a16c1ed933','{"agent":"silicone-oil","eye":"right"}','09307fe777672235316e5215d55169b8c59b8847ace73fe89791f002da26218a','195971920bf8130b78e6d9dcc140e1660e1fea9eb217f72e3a792e8a3f50e3fa');
INSERT INTO "audit" VALUES(7,'2027-03-02T20:00:00.000000Z','patient:01a21526-2194-7551-a023-0dad9e16d8c6','device enrolled','01a21526-217c-7559-9480-4eea60a64e2e','null','195971920bf8130b78e6d9dcc140e1660e1fea9eb217f72e3a792e8a3f50e3fa','e3fad496dbfe00564efaa5c5c6bfda52e3703e9f5eacc02992013a998ae3b066');
INSERT INTO "audit" VALUES(8,'2027-03-05T10:00:00.000000Z','patient:01a21526-2194-7551-a023-0dad9e16d8c6','event posture','01a21526-217c-7559-9480-4eebc0402c18','{"id":"0195e5a0-0000-7000-8000-000000000001"}','e3fad496dbfe00564efaa5c5c6bfda52e3703e9f5eacc02992013a998ae3b066','9d30a8529aceb832ceec2c6746285fa3b17a0d5790eb7f34c365996659a4a960');
INSERT INTO "audit" VALUES(9,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21526-217c-7559-9480-4eebc0402c18','{"how_soon":"today","rule":"missed-early-visit"}','9d30a8529aceb832ceec2c6746285fa3b17a0d5790eb7f34c365996659a4a960','d0de104158aee242b95be4614ee2d81cbf01bca392ea9d8d1cdadffb2357cfc7');
INSERT INTO "audit" VALUES(10,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21526-217c-7559-9480-4eebc0402c18','{"how_soon":"this-week","rule":"posture-missed"}','d0de104158aee242b95be4614ee2d81cbf01bca392ea9d8d1cdadffb2357cfc7','af181989696370011837b7cb33c293a816866ba068d4f95affa24556583e114b');
INSERT INTO "audit" VALUES(11,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21526-217c-7559-9480-4eebc0402c18','{"how_soon":"this-week","rule":"silent-while-posturing"}','af181989696370011837b7cb33c293a816866ba068d4f95affa24556583e114b','d67f39c9009c9886757cd4076f2c4e7a9a4c413a3c1a660e6b9efd95fb59d3ce');
INSERT INTO "audit" VALUES(12,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21526-217c-7559-9480-4eebc0402c18','{"how_soon":"this-week","rule":"no-posture-entry"}','d67f39c9009c9886757cd4076f2c4e7a9a4c413a3c1a660e6b9efd95fb59d3ce','aeb51ccc688433a0af0166db42629f5d3110706c1a8ce3443eb3b22860139813');
INSERT INTO "audit" VALUES(13,'2027-03-05T10:00:00.000000Z','patient:01a21526-2194-7551-a023-0dad9e16d8c6','event symptoms','01a21526-217c-7559-9480-4eebc0402c18','{"id":"0195e5a0-0000-7000-8000-000000000002"}','aeb51ccc688433a0af0166db42629f5d3110706c1a8ce3443eb3b22860139813','537ab82a4083a85fd42d878bc813a0b20a03b9863df6c40d95568c45c12da70c');
INSERT INTO "audit" VALUES(14,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21526-217c-7559-9480-4eebc0402c18','{"how_soon":"now","rule":"infection-suspected"}','537ab82a4083a85fd42d878bc813a0b20a03b9863df6c40d95568c45c12da70c','1b62096168c869ea176b9645351a2fd9704f19cda897f47926d51838cd20e862');
INSERT INTO "audit" VALUES(15,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21526-217c-7559-9480-4eebc0402c18','{"how_soon":"now","rule":"severe-pain"}','1b62096168c869ea176b9645351a2fd9704f19cda897f47926d51838cd20e862','9cfeba571a6708b42018f9ba710c01e78b221858c7c95098622daddc28f18d7f');
INSERT INTO "audit" VALUES(16,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21526-217c-7559-9480-4eebc0402c18','{"how_soon":"today","rule":"curtain"}','9cfeba571a6708b42018f9ba710c01e78b221858c7c95098622daddc28f18d7f','d6938ea9240942d66fc9cf8de7713006c9ea95cbe892d188d1e9d261a371e932');
INSERT INTO "audit" VALUES(17,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21526-217c-7559-9480-4eebc0402c18','{"how_soon":"today","rule":"pain"}','d6938ea9240942d66fc9cf8de7713006c9ea95cbe892d188d1e9d261a371e932','5124a0ae20e74d2d6bebc48e56afa2ea39232b0409bcab7330ce54ea8288a4fe');
INSERT INTO "audit" VALUES(18,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21526-217c-7559-9480-4eebc0402c18','{"how_soon":"today","rule":"vision-worse"}','5124a0ae20e74d2d6bebc48e56afa2ea39232b0409bcab7330ce54ea8288a4fe','73838f1117a6e7b9c89a1df659b5b9c9f19bc2589c81a58918b2b1452078cfa3');
INSERT INTO "audit" VALUES(19,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21526-217c-7559-9480-4eebc0402c18','{"how_soon":"this-week","rule":"vision-said-worse"}','73838f1117a6e7b9c89a1df659b5b9c9f19bc2589c81a58918b2b1452078cfa3','8ee3fb0681936c92b89b532a9de125b6e37cae725f0a7a07e940aaee070a26ec');
INSERT INTO "audit" VALUES(20,'2027-03-05T10:00:00.000000Z','nurse:01a21526-216c-7461-bb2a-a659b53d2e9e','event measures','01a21526-217c-7559-9480-4eebc0402c18','{"id":"01a21526-21ec-7698-959c-e1d3bc480fce"}','8ee3fb0681936c92b89b532a9de125b6e37cae725f0a7a07e940aaee070a26ec','c54cf71a035058c1ab05528bf3fd1c4b4b8c1fc75332834495e5396229cd7971');
INSERT INTO "audit" VALUES(21,'2027-03-05T10:00:00.000000Z','nurse:01a21526-216c-7461-bb2a-a659b53d2e9e','event seen','01a21526-217c-7559-9480-4eebc0402c18','{"id":"01a21526-21ee-749f-81c1-23eaed50e1fa"}','c54cf71a035058c1ab05528bf3fd1c4b4b8c1fc75332834495e5396229cd7971','654d7e131ef2dd7c4511739c65407c3d1cac42785b3b05a17dfce380ac3392dd');
INSERT INTO "audit" VALUES(22,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21526-217c-7559-9480-4eebc0402c18','{"how_soon":"now","rule":"pressure-severe"}','654d7e131ef2dd7c4511739c65407c3d1cac42785b3b05a17dfce380ac3392dd','a63b29f38bc6fb50d88c0f8a920906b75f53e633789a91507d2f01874042017c');
INSERT INTO "audit" VALUES(23,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21526-217c-7559-9480-4eebc0402c18','{"how_soon":"today","rule":"pressure-spike"}','a63b29f38bc6fb50d88c0f8a920906b75f53e633789a91507d2f01874042017c','bd6f53128c772aca8bdfaaaf695341cbfe8efaef00112d53b42ff6bd884b4c3d');
INSERT INTO "audit" VALUES(24,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21526-217c-7559-9480-4eebc0402c18','{"how_soon":"this-week","rule":"pressure-raised"}','bd6f53128c772aca8bdfaaaf695341cbfe8efaef00112d53b42ff6bd884b4c3d','338b4556787370779c8d3f25eff4c7cedfb1d13340db4ca2f4321b7dbedf507b');
INSERT INTO "audit" VALUES(25,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21526-217c-7559-9480-4eebc0402c18','{"how_soon":"this-week","rule":"pressure-rise"}','338b4556787370779c8d3f25eff4c7cedfb1d13340db4ca2f4321b7dbedf507b','6da441378e9be0caf861fd7aabb3b98c9a5b4eef30e96c6a537e193f71165c8b');
INSERT INTO "audit" VALUES(26,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21526-217c-7559-9480-4eebc0402c18','{"how_soon":"this-week","rule":"pressure-rising"}','6da441378e9be0caf861fd7aabb3b98c9a5b4eef30e96c6a537e193f71165c8b','fd655b81b43cc96b706f0ac3997476eb2fe4469672a3ec8f3c52ca71821027c0');
INSERT INTO "audit" VALUES(27,'2027-03-05T10:00:00.000000Z','nurse:01a21526-216c-7461-bb2a-a659b53d2e9e','event measures','01a21526-218c-72f1-a0ed-c5a16c1ed933','{"id":"01a21526-220c-76fd-8060-b0a9afac2c35"}','fd655b81b43cc96b706f0ac3997476eb2fe4469672a3ec8f3c52ca71821027c0','3b652b2769bd225e31431670650dd08e50ae960bf08a626d3815331437926732');
INSERT INTO "audit" VALUES(28,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21526-218c-72f1-a0ed-c5a16c1ed933','{"how_soon":"today","rule":"missed-early-visit"}','3b652b2769bd225e31431670650dd08e50ae960bf08a626d3815331437926732','5c1799e4317bc147fca2e43ec309388e7b30792a89dd0c351051b9373e9d73ed');
INSERT INTO "audit" VALUES(29,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21526-218c-72f1-a0ed-c5a16c1ed933','{"how_soon":"this-week","rule":"no-posture-entry"}','5c1799e4317bc147fca2e43ec309388e7b30792a89dd0c351051b9373e9d73ed','86fc776057d1a9d73b88818a8dd0309f877f3af65c7394f5ddfe685f061a2831');
INSERT INTO "audit" VALUES(30,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21526-218c-72f1-a0ed-c5a16c1ed933','{"how_soon":"this-week","rule":"silent-while-posturing"}','86fc776057d1a9d73b88818a8dd0309f877f3af65c7394f5ddfe685f061a2831','9f8022690caa6ee4dfd07a028237558d4d6dc9760031637f85ccb62d9b0f02dd');
INSERT INTO "audit" VALUES(31,'2027-03-05T10:00:00.000000Z','nurse:01a21526-216c-7461-bb2a-a659b53d2e9e','callback claimed','01a21526-21d9-74e0-8a2a-9ff76ed73531','null','9f8022690caa6ee4dfd07a028237558d4d6dc9760031637f85ccb62d9b0f02dd','a8772946aa66308e63545ddc5bc9fc92044aee005bc659f8edc631d130c0082c');
INSERT INTO "audit" VALUES(32,'2027-03-05T10:00:00.000000Z','nurse:01a21526-216c-7461-bb2a-a659b53d2e9e','callback attempt','01a21526-21d9-74e0-8a2a-9ff76ed73531','{"reached":true}','a8772946aa66308e63545ddc5bc9fc92044aee005bc659f8edc631d130c0082c','83d0e15f34698b55fe1ba8b4e5f4bb7b93d03bf147277e0f6d6a01f8b9518640');
INSERT INTO "audit" VALUES(33,'2027-03-05T10:00:00.000000Z','nurse:01a21526-216c-7461-bb2a-a659b53d2e9e','callback settled','01a21526-21d9-74e0-8a2a-9ff76ed73531','{"outcome":"advice"}','83d0e15f34698b55fe1ba8b4e5f4bb7b93d03bf147277e0f6d6a01f8b9518640','4e582184e45e00bdb34eda27ce3941c5f9d191410da9202a64cc381bf78c2dd3');
INSERT INTO "audit" VALUES(34,'2027-03-05T10:00:00.000000Z','surgeon:01a21526-2174-75ff-8816-22e5f17e8de9','protocol signed','reviews','{"fingerprint":"94682d816bcc0e77"}','4e582184e45e00bdb34eda27ce3941c5f9d191410da9202a64cc381bf78c2dd3','f09410f120121b1476f4557c2027296545cf7783f114785fe34611f8eb6dcf9c');
CREATE TABLE callback_steps (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks, at TEXT NOT NULL, who TEXT NOT NULL,
            step TEXT NOT NULL, detail TEXT NOT NULL
        ) STRICT;
INSERT INTO "callback_steps" VALUES('01a21526-21bf-742e-8ce7-3d4487a7c54d','01a21526-21bf-742e-8ce7-3d43c0c5737c','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a21526-21c0-70c8-976b-6bfba914e9e1','01a21526-21c0-70c8-976b-6bfac4cc147b','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"posture-missed","words":"Only 3 of 12 hours of posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a21526-21c0-70c8-976b-6bfe7417c2be','01a21526-21c0-70c8-976b-6bfd9e8d1111','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a21526-21c4-74e0-85fe-fa615e9a073a','01a21526-21c0-70c8-976b-6bfd9e8d1111','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-04."}');
INSERT INTO "callback_steps" VALUES('01a21526-21d9-74e0-8a2a-9ff8fd25c62f','01a21526-21d9-74e0-8a2a-9ff76ed73531','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"infection-suspected","words":"Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five."}');
INSERT INTO "callback_steps" VALUES('01a21526-21d9-74e0-8a2a-9ffbf4d73c64','01a21526-21d9-74e0-8a2a-9ffa4cbb16a6','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"severe-pain","words":"Severe pain (8 of 10): pressure and infection must be ruled out."}');
INSERT INTO "callback_steps" VALUES('01a21526-21d9-74e0-8a2a-9ffe8e69af5e','01a21526-21d9-74e0-8a2a-9ffd1f5c1789','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"curtain","words":"A curtain or shadow that does not move with the bubble: new detachment until shown otherwise."}');
INSERT INTO "callback_steps" VALUES('01a21526-21d9-74e0-8a2a-a000d61d21b6','01a21526-21d9-74e0-8a2a-9ffa4cbb16a6','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pain","words":"Pain of 8 of 10, beyond what simple painkillers usually hold."}');
INSERT INTO "callback_steps" VALUES('01a21526-21da-73ba-932f-90b3e15ea250','01a21526-21d9-74e0-8a2a-9ffd1f5c1789','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"vision-worse","words":"The patient says that the vision fell."}');
INSERT INTO "callback_steps" VALUES('01a21526-21da-73ba-932f-90b5a23884de','01a21526-21d9-74e0-8a2a-9ffd1f5c1789','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"vision-said-worse","words":"The patient said that the vision fell. Ask again, whatever the second look said."}');
INSERT INTO "callback_steps" VALUES('01a21526-21fe-73d8-bc28-57021ae2f629','01a21526-21d9-74e0-8a2a-9ffa4cbb16a6','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"now","rule":"pressure-severe","words":"Pressure 41 mmHg, at or above 40."}');
INSERT INTO "callback_steps" VALUES('01a21526-21fe-73d8-bc28-5704e8ddf42b','01a21526-21d9-74e0-8a2a-9ffa4cbb16a6','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pressure-spike","words":"Pressure 41 mmHg, at or above 30."}');
INSERT INTO "callback_steps" VALUES('01a21526-21fe-73d8-bc28-57067c2169b0','01a21526-21d9-74e0-8a2a-9ffa4cbb16a6','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-raised","words":"Pressure 41 mmHg, at or above 24."}');
INSERT INTO "callback_steps" VALUES('01a21526-21fe-73d8-bc28-57084e3e0615','01a21526-21d9-74e0-8a2a-9ffa4cbb16a6','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rise","words":"Pressure 41 mmHg, 26 above this eye’s own 15."}');
INSERT INTO "callback_steps" VALUES('01a21526-21fe-73d8-bc28-570a43bd98e7','01a21526-21d9-74e0-8a2a-9ffa4cbb16a6','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rising","words":"Pressure 41 mmHg, 26 above what is usual for this eye (15)."}');
INSERT INTO "callback_steps" VALUES('01a21526-2212-77a7-922b-50032299e406','01a21526-2212-77a7-922b-50021ea53296','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a21526-2212-77a7-922b-500677603fc1','01a21526-2212-77a7-922b-5005cbd483ba','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a21526-2212-77a7-922b-5008b8a67ecd','01a21526-2212-77a7-922b-5005cbd483ba','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a21526-2226-771a-93fe-6b17cfaf21b3','01a21526-21d9-74e0-8a2a-9ff76ed73531','2027-03-05T10:00:00.000000Z','nurse:01a21526-216c-7461-bb2a-a659b53d2e9e','claimed','{"by":"Nora Nurse"}');
INSERT INTO "callback_steps" VALUES('01a21526-222d-7032-a1af-4296058b3eb5','01a21526-21d9-74e0-8a2a-9ff76ed73531','2027-03-05T10:00:00.000000Z','nurse:01a21526-216c-7461-bb2a-a659b53d2e9e','reached','{"by":"Nora Nurse","next_try":null,"spoke_to":"patient","words":"comes at once"}');
INSERT INTO "callback_steps" VALUES('01a21526-2231-753f-933d-0b89d6c3acf8','01a21526-21d9-74e0-8a2a-9ff76ed73531','2027-03-05T10:00:00.000000Z','nurse:01a21526-216c-7461-bb2a-a659b53d2e9e','settled','{"by":"Nora Nurse","outcome":"advice","words":"comes at two"}');
CREATE TABLE callbacks (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", worry TEXT NOT NULL,
            how_soon TEXT NOT NULL CHECK (how_soon IN ('now', 'today', 'this-week')),
            opened_at TEXT NOT NULL, due_at TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('waiting', 'claimed', 'settled')),
            claimed_by TEXT REFERENCES staff, claimed_at TEXT, settled_at TEXT, outcome TEXT,
            level INTEGER NOT NULL DEFAULT 0
        , settled_by TEXT REFERENCES staff, next_try_at TEXT, moved_up INTEGER NOT NULL DEFAULT 0) STRICT;
INSERT INTO "callbacks" VALUES('01a21526-21bf-742e-8ce7-3d43c0c5737c','01a21526-217c-7559-9480-4eebc0402c18','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21526-21c0-70c8-976b-6bfac4cc147b','01a21526-217c-7559-9480-4eebc0402c18','posture','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21526-21c0-70c8-976b-6bfd9e8d1111','01a21526-217c-7559-9480-4eebc0402c18','silence','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21526-21d9-74e0-8a2a-9ff76ed73531','01a21526-217c-7559-9480-4eebc0402c18','infection','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','settled','01a21526-216c-7461-bb2a-a659b53d2e9e','2027-03-05T10:00:00.000000Z','2027-03-05T10:00:00.000000Z','advice',0,'01a21526-216c-7461-bb2a-a659b53d2e9e',NULL,0);
INSERT INTO "callbacks" VALUES('01a21526-21d9-74e0-8a2a-9ffa4cbb16a6','01a21526-217c-7559-9480-4eebc0402c18','pressure','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21526-21d9-74e0-8a2a-9ffd1f5c1789','01a21526-217c-7559-9480-4eebc0402c18','retina','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21526-2212-77a7-922b-50021ea53296','01a21526-218c-72f1-a0ed-c5a16c1ed933','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21526-2212-77a7-922b-5005cbd483ba','01a21526-218c-72f1-a0ed-c5a16c1ed933','silence','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
CREATE TABLE devices (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, token_hash TEXT NOT NULL UNIQUE,
            used_by TEXT NOT NULL, enrolled_at TEXT NOT NULL, heard_at TEXT NOT NULL, revoked_at TEXT, revoked_by TEXT
        ) STRICT;
INSERT INTO "devices" VALUES('01a21526-2194-7551-a023-0dad9e16d8c6','01a21526-217c-7559-9480-4eea60a64e2e','4d3dcbc20857bebef242370987f20092c7ef5544984775b12aa12ee779cd4259','patient','2027-03-02T20:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,NULL);
CREATE TABLE enrolments (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, code_hash TEXT NOT NULL UNIQUE,
            created_by TEXT NOT NULL, created_at TEXT NOT NULL, expires_at TEXT NOT NULL,
            used_at TEXT, wrong_tries INTEGER NOT NULL DEFAULT 0
        ) STRICT;
INSERT INTO "enrolments" VALUES('01a21526-217f-776b-b9e8-575083b4858e','01a21526-217c-7559-9480-4eea60a64e2e','e382111826e7a1e9d021020c1ce7369c22775fd1c221992f667352334accb1ef','nurse:01a21526-216c-7461-bb2a-a659b53d2e9e','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z','2027-03-02T20:00:00.000000Z',0);
INSERT INTO "enrolments" VALUES('01a21526-218d-71ed-9ccc-096e414e7016','01a21526-218c-72f1-a0ed-c5a08d28abf1','10ae0729114447cb257e12157bac47862999740ccf803ee3668b8d43e1fbb350','nurse:01a21526-216c-7461-bb2a-a659b53d2e9e','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z',NULL,0);
CREATE TABLE events (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", kind TEXT NOT NULL, at TEXT NOT NULL,
            body TEXT NOT NULL, author TEXT NOT NULL, device_id TEXT REFERENCES devices, sequence INTEGER,
            offset_minutes INTEGER, device_at TEXT, received_at TEXT NOT NULL, corrects TEXT REFERENCES events
        , reason TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000001','01a21526-217c-7559-9480-4eebc0402c18','posture','2027-03-05T09:00:00.000000Z','{"from":"2027-03-03T08:00:00Z","position":"face-down","to":"2027-03-03T11:00:00Z"}','patient:01a21526-2194-7551-a023-0dad9e16d8c6','01a21526-2194-7551-a023-0dad9e16d8c6',1,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000002','01a21526-217c-7559-9480-4eebc0402c18','symptoms','2027-03-05T09:00:00.000000Z','{"cannot_tell":[],"curtain":true,"pain":8,"vision":"worse","words":""}','patient:01a21526-2194-7551-a023-0dad9e16d8c6','01a21526-2194-7551-a023-0dad9e16d8c6',2,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21526-21ec-7698-959c-e1d3bc480fce','01a21526-217c-7559-9480-4eebc0402c18','measures','2027-03-05T10:00:00.000000Z','{"acuity":"6/60","bubble_percent":85.0,"eye":"right","findings":[],"instrument":"applanation","iop_mmhg":41.0,"notes":""}','nurse:01a21526-216c-7461-bb2a-a659b53d2e9e',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21526-21ee-749f-81c1-23eaed50e1fa','01a21526-217c-7559-9480-4eebc0402c18','seen','2027-03-05T10:00:00.000000Z','{"visit":"day 1","visit_id":"01a21526-217e-7489-bde5-bcfce6c1b932"}','nurse:01a21526-216c-7461-bb2a-a659b53d2e9e',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21526-220c-76fd-8060-b0a9afac2c35','01a21526-218c-72f1-a0ed-c5a16c1ed933','measures','2027-03-05T10:00:00.000000Z','{"acuity":"HM","eye":"right","findings":[],"iop_mmhg":14.0,"notes":""}','nurse:01a21526-216c-7461-bb2a-a659b53d2e9e',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21526-222d-7032-a1af-4295c51d1661','01a21526-217c-7559-9480-4eebc0402c18','heard','2027-03-05T10:00:00.000000Z','{"words":"comes at once"}','nurse:01a21526-216c-7461-bb2a-a659b53d2e9e',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
CREATE TABLE "eyes" (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, created_at TEXT NOT NULL, ended_at TEXT
        , side TEXT CHECK (side IN ('right', 'left')), followed_since TEXT, end_reason TEXT, joined_into TEXT REFERENCES eyes) STRICT;
INSERT INTO "eyes" VALUES('01a21526-217c-7559-9480-4eebc0402c18','01a21526-217c-7559-9480-4eea60a64e2e','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a21526-217c-7559-9480-4eecb6c8fec8','01a21526-217c-7559-9480-4eea60a64e2e','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
INSERT INTO "eyes" VALUES('01a21526-218c-72f1-a0ed-c5a16c1ed933','01a21526-218c-72f1-a0ed-c5a08d28abf1','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a21526-218c-72f1-a0ed-c5a24a1bf152','01a21526-218c-72f1-a0ed-c5a08d28abf1','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
CREATE TABLE faults (
            what TEXT NOT NULL, about TEXT NOT NULL, words TEXT NOT NULL, first_at TEXT NOT NULL, last_at TEXT NOT NULL,
            times INTEGER NOT NULL DEFAULT 1, PRIMARY KEY (what, about)
        ) STRICT;
CREATE TABLE follow_ups (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, at TEXT NOT NULL,
            what TEXT NOT NULL CHECK (what IN ('begun', 'ended', 'resumed')), reason TEXT NOT NULL, words TEXT NOT NULL,
            recorded_by TEXT NOT NULL
        ) STRICT;
INSERT INTO "follow_ups" VALUES('01a21526-217e-7489-bde5-bcfe5476b30f','01a21526-217c-7559-9480-4eebc0402c18','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a21526-216c-7461-bb2a-a659b53d2e9e');
INSERT INTO "follow_ups" VALUES('01a21526-218d-71ed-9ccc-096d2d809f26','01a21526-218c-72f1-a0ed-c5a16c1ed933','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a21526-216c-7461-bb2a-a659b53d2e9e');
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
INSERT INTO "operation_records" VALUES('01a21526-217e-7489-bde5-bcfbd450db45','01a21526-217e-7489-bde5-bcfa8a6bb162','right','2027-03-02T14:00:00.000000Z','c2f6','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":95.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":16.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a21526-216c-7461-bb2a-a659b53d2e9e','2027-03-02T19:00:00.000000Z','');
INSERT INTO "operation_records" VALUES('01a21526-218d-71ed-9ccc-096ab36ff947','01a21526-218d-71ed-9ccc-096996eb0d49','right','2027-03-02T14:00:00.000000Z','silicone-oil','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":90.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":0.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a21526-216c-7461-bb2a-a659b53d2e9e','2027-03-02T19:00:00.000000Z','');
CREATE TABLE operations (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, created_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "operations" VALUES('01a21526-217e-7489-bde5-bcfa8a6bb162','01a21526-217c-7559-9480-4eebc0402c18','2027-03-02T19:00:00.000000Z');
INSERT INTO "operations" VALUES('01a21526-218d-71ed-9ccc-096996eb0d49','01a21526-218c-72f1-a0ed-c5a16c1ed933','2027-03-02T19:00:00.000000Z');
CREATE TABLE patient_terms (term TEXT NOT NULL, patient_id TEXT NOT NULL REFERENCES patients) STRICT;
INSERT INTO "patient_terms" VALUES('erson','01a21526-217c-7559-9480-4eea60a64e2e');
INSERT INTO "patient_terms" VALUES('on','01a21526-217c-7559-9480-4eea60a64e2e');
INSERT INTO "patient_terms" VALUES('s','01a21526-217c-7559-9480-4eea60a64e2e');
INSERT INTO "patient_terms" VALUES('09876','01a21526-217c-7559-9480-4eea60a64e2e');
INSERT INTO "patient_terms" VALUES('s1','01a21526-217c-7559-9480-4eea60a64e2e');
INSERT INTO "patient_terms" VALUES('76','01a21526-217c-7559-9480-4eea60a64e2e');
INSERT INTO "patient_terms" VALUES('son','01a21526-217c-7559-9480-4eea60a64e2e');
INSERT INTO "patient_terms" VALUES('ia','01a21526-217c-7559-9480-4eea60a64e2e');
INSERT INTO "patient_terms" VALUES('9','01a21526-217c-7559-9480-4eea60a64e2e');
INSERT INTO "patient_terms" VALUES('9876','01a21526-217c-7559-9480-4eea60a64e2e');
INSERT INTO "patient_terms" VALUES('person','01a21526-217c-7559-9480-4eea60a64e2e');
INSERT INTO "patient_terms" VALUES('pia','01a21526-217c-7559-9480-4eea60a64e2e');
INSERT INTO "patient_terms" VALUES('00','01a21526-217c-7559-9480-4eea60a64e2e');
INSERT INTO "patient_terms" VALUES('rson','01a21526-217c-7559-9480-4eea60a64e2e');
INSERT INTO "patient_terms" VALUES('009876','01a21526-217c-7559-9480-4eea60a64e2e');
INSERT INTO "patient_terms" VALUES('1','01a21526-217c-7559-9480-4eea60a64e2e');
INSERT INTO "patient_terms" VALUES('876','01a21526-217c-7559-9480-4eea60a64e2e');
INSERT INTO "patient_terms" VALUES('s','01a21526-218c-72f1-a0ed-c5a08d28abf1');
INSERT INTO "patient_terms" VALUES('09876','01a21526-218c-72f1-a0ed-c5a08d28abf1');
INSERT INTO "patient_terms" VALUES('ther','01a21526-218c-72f1-a0ed-c5a08d28abf1');
INSERT INTO "patient_terms" VALUES('76','01a21526-218c-72f1-a0ed-c5a08d28abf1');
INSERT INTO "patient_terms" VALUES('2','01a21526-218c-72f1-a0ed-c5a08d28abf1');
INSERT INTO "patient_terms" VALUES('af','01a21526-218c-72f1-a0ed-c5a08d28abf1');
INSERT INTO "patient_terms" VALUES('9','01a21526-218c-72f1-a0ed-c5a08d28abf1');
INSERT INTO "patient_terms" VALUES('er','01a21526-218c-72f1-a0ed-c5a08d28abf1');
INSERT INTO "patient_terms" VALUES('other','01a21526-218c-72f1-a0ed-c5a08d28abf1');
INSERT INTO "patient_terms" VALUES('9876','01a21526-218c-72f1-a0ed-c5a08d28abf1');
INSERT INTO "patient_terms" VALUES('her','01a21526-218c-72f1-a0ed-c5a08d28abf1');
INSERT INTO "patient_terms" VALUES('olaf','01a21526-218c-72f1-a0ed-c5a08d28abf1');
INSERT INTO "patient_terms" VALUES('00','01a21526-218c-72f1-a0ed-c5a08d28abf1');
INSERT INTO "patient_terms" VALUES('009876','01a21526-218c-72f1-a0ed-c5a08d28abf1');
INSERT INTO "patient_terms" VALUES('s2','01a21526-218c-72f1-a0ed-c5a08d28abf1');
INSERT INTO "patient_terms" VALUES('876','01a21526-218c-72f1-a0ed-c5a08d28abf1');
INSERT INTO "patient_terms" VALUES('laf','01a21526-218c-72f1-a0ed-c5a08d28abf1');
CREATE TABLE patients (
            id TEXT PRIMARY KEY, number TEXT NOT NULL UNIQUE, name TEXT NOT NULL, born_on TEXT NOT NULL,
            phone TEXT NOT NULL, language TEXT NOT NULL, created_at TEXT NOT NULL
        , joined_into TEXT REFERENCES patients, reached_by TEXT NOT NULL DEFAULT ''
            CHECK (reached_by IN ('', 'own-phone', 'carer-phone', 'no-app')), carer_phone TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "patients" VALUES('01a21526-217c-7559-9480-4eea60a64e2e','S-1','Pia Person','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL,'','');
INSERT INTO "patients" VALUES('01a21526-218c-72f1-a0ed-c5a08d28abf1','S-2','Olaf Other','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL,'','');
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
INSERT INTO "refused_events" VALUES('0195e5a0-0000-7000-8000-000000000003','01a21526-217c-7559-9480-4eebc0402c18','01a21526-2194-7551-a023-0dad9e16d8c6','{"id": "0195e5a0-0000-7000-8000-000000000003", "operation": "01a21526-217c-7559-9480-4eebc0402c18", "kind": "symptoms", "at": "2027-03-05T09:00:00Z", "offset_minutes": 60, "sequence": 3, "by": "patient", "body": {"pain": 99}}','pain: Input should be less than or equal to 10','2027-03-05T10:00:00.000000Z');
CREATE TABLE settings (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
CREATE TABLE signatures (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, fingerprint TEXT NOT NULL, signed_by TEXT NOT NULL REFERENCES staff,
            signed_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "signatures" VALUES('01a21526-2238-75eb-be52-e05f2f5b39b1','reviews','94682d816bcc0e77','01a21526-2174-75ff-8816-22e5f17e8de9','2027-03-05T10:00:00.000000Z');
CREATE TABLE staff (
            id TEXT PRIMARY KEY, name TEXT NOT NULL, role TEXT NOT NULL CHECK (role IN ('nurse', 'surgeon')),
            email TEXT NOT NULL UNIQUE, password_hash TEXT NOT NULL, created_at TEXT NOT NULL, left_at TEXT
        ) STRICT;
INSERT INTO "staff" VALUES('01a21526-216c-7461-bb2a-a659b53d2e9e','Nora Nurse','nurse','nurse@test.invalid','$argon2id$v=19$m=8,t=1,p=1$nBqAAGbMUq8KjQbHIgcH8g$235aCbmodlzcMCaifEYAOgZjkWqQa9DUQQ4TrhpzWn8','2027-03-02T14:00:00.000000Z',NULL);
INSERT INTO "staff" VALUES('01a21526-2174-75ff-8816-22e5f17e8de9','Sol Surgeon','surgeon','surgeon@test.invalid','$argon2id$v=19$m=8,t=1,p=1$bFjdFsck+4KHxUYb8nS1fw$x4odcWnbv6v3AG/f9rXks7dZnybFfCfVLI2rvnR7Eqw','2027-03-02T14:00:00.000000Z',NULL);
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
        , identity TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "visits" VALUES('01a21526-217e-7489-bde5-bcfce6c1b932','01a21526-217c-7559-9480-4eebc0402c18','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a21526-216c-7461-bb2a-a659b53d2e9e','2027-03-02T19:00:00.000000Z',NULL,0,'01a21526-217e-7489-bde5-bcfce6c1b932');
INSERT INTO "visits" VALUES('01a21526-217e-7489-bde5-bcfdf9a11210','01a21526-217c-7559-9480-4eebc0402c18','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a21526-216c-7461-bb2a-a659b53d2e9e','2027-03-02T19:00:00.000000Z',NULL,0,'01a21526-217e-7489-bde5-bcfdf9a11210');
INSERT INTO "visits" VALUES('01a21526-218d-71ed-9ccc-096bea3731e6','01a21526-218c-72f1-a0ed-c5a16c1ed933','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a21526-216c-7461-bb2a-a659b53d2e9e','2027-03-02T19:00:00.000000Z',NULL,0,'01a21526-218d-71ed-9ccc-096bea3731e6');
INSERT INTO "visits" VALUES('01a21526-218d-71ed-9ccc-096c476aba3c','01a21526-218c-72f1-a0ed-c5a16c1ed933','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a21526-216c-7461-bb2a-a659b53d2e9e','2027-03-02T19:00:00.000000Z',NULL,0,'01a21526-218d-71ed-9ccc-096c476aba3c');
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
INSERT INTO "warnings" VALUES('01a21526-21bf-742e-8ce7-3d457f21b0d4','01a21526-217c-7559-9480-4eebc0402c18','01a21526-21bf-742e-8ce7-3d43c0c5737c','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21526-21c0-70c8-976b-6bfcb49a562f','01a21526-217c-7559-9480-4eebc0402c18','01a21526-21c0-70c8-976b-6bfac4cc147b','posture-missed','posture','this-week','2027-03-03T23:00:00.000000Z',0.75,'{"date":"2027-03-03","hours":3.0,"target_hours":12}','{"share":0.5}','CP','Only 3 of 12 hours of posturing on 2027-03-03.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21526-21c0-70c8-976b-6bff8ac746d1','01a21526-217c-7559-9480-4eebc0402c18','01a21526-21c0-70c8-976b-6bfd9e8d1111','silent-while-posturing','silence','this-week','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21526-21c4-74e0-85fe-fa62301826c4','01a21526-217c-7559-9480-4eebc0402c18','01a21526-21c0-70c8-976b-6bfd9e8d1111','no-posture-entry','silence','this-week','2027-03-04T23:00:00.000000Z',1.0,'{"date":"2027-03-04"}','{}','CP','Nothing logged for posturing on 2027-03-04.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21526-21d9-74e0-8a2a-9ff9e8e98d60','01a21526-217c-7559-9480-4eebc0402c18','01a21526-21d9-74e0-8a2a-9ff76ed73531','infection-suspected','infection','now','2027-03-05T09:00:00.000000Z',30.0,'{"pain":8,"vision":"worse"}','{"count":2,"signs":["pain>=4","vision=worse","redness=worse","discharge"]}','BOSU','Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21526-21d9-74e0-8a2a-9ffc31f133c5','01a21526-217c-7559-9480-4eebc0402c18','01a21526-21d9-74e0-8a2a-9ffa4cbb16a6','severe-pain','pressure','now','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=7"]}','VRS','Severe pain (8 of 10): pressure and infection must be ruled out.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21526-21d9-74e0-8a2a-9ffff0dab257','01a21526-217c-7559-9480-4eebc0402c18','01a21526-21d9-74e0-8a2a-9ffd1f5c1789','curtain','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"curtain":true,"pain":8}','{"count":1,"signs":["curtain"]}','RD14','A curtain or shadow that does not move with the bubble: new detachment until shown otherwise.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21526-21d9-74e0-8a2a-a001a03a3d65','01a21526-217c-7559-9480-4eebc0402c18','01a21526-21d9-74e0-8a2a-9ffa4cbb16a6','pain','pressure','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=5"]}','VRS','Pain of 8 of 10, beyond what simple painkillers usually hold.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21526-21da-73ba-932f-90b47eb404f4','01a21526-217c-7559-9480-4eebc0402c18','01a21526-21d9-74e0-8a2a-9ffd1f5c1789','vision-worse','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','Hol09','The patient says that the vision fell.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21526-21da-73ba-932f-90b6f94894e0','01a21526-217c-7559-9480-4eebc0402c18','01a21526-21d9-74e0-8a2a-9ffd1f5c1789','vision-said-worse','retina','this-week','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','Hol09','The patient said that the vision fell. Ask again, whatever the second look said.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21526-21fe-73d8-bc28-57032fcade9f','01a21526-217c-7559-9480-4eebc0402c18','01a21526-21d9-74e0-8a2a-9ffa4cbb16a6','pressure-severe','pressure','now','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":40}','Bern12','Pressure 41 mmHg, at or above 40.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21526-21fe-73d8-bc28-5705dd3b3286','01a21526-217c-7559-9480-4eebc0402c18','01a21526-21d9-74e0-8a2a-9ffa4cbb16a6','pressure-spike','pressure','today','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":30}','Bern12','Pressure 41 mmHg, at or above 30.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21526-21fe-73d8-bc28-57078649940e','01a21526-217c-7559-9480-4eebc0402c18','01a21526-21d9-74e0-8a2a-9ffa4cbb16a6','pressure-raised','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":24}','NICE','Pressure 41 mmHg, at or above 24.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21526-21fe-73d8-bc28-5709bfba442a','01a21526-217c-7559-9480-4eebc0402c18','01a21526-21d9-74e0-8a2a-9ffa4cbb16a6','pressure-rise','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"baseline_mmhg":15,"instrument":"applanation","iop_mmhg":41.0,"pain":null,"risen_mmhg":26.0}','{"mmhg":24,"rise_mmhg":10}','LOH19','Pressure 41 mmHg, 26 above this eye’s own 15.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21526-21fe-73d8-bc28-570bb4ceaedd','01a21526-217c-7559-9480-4eebc0402c18','01a21526-21d9-74e0-8a2a-9ffa4cbb16a6','pressure-rising','pressure','this-week','2027-03-05T10:00:00.000000Z',26.0,'{"instrument":"applanation","iop_mmhg":41.0,"moved_mmhg":26.0,"pain":null,"usual_mmhg":15}','{"by_mmhg":5,"direction":"up","mmhg":18}','SIO','Pressure 41 mmHg, 26 above what is usual for this eye (15).','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21526-2212-77a7-922b-5004ddb608f1','01a21526-218c-72f1-a0ed-c5a16c1ed933','01a21526-2212-77a7-922b-50021ea53296','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21526-2212-77a7-922b-5007049961af','01a21526-218c-72f1-a0ed-c5a16c1ed933','01a21526-2212-77a7-922b-5005cbd483ba','no-posture-entry','silence','this-week','2027-03-03T23:00:00.000000Z',1.0,'{"date":"2027-03-03"}','{}','CP','Nothing logged for posturing on 2027-03-03.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21526-2212-77a7-922b-50096a34e92a','01a21526-218c-72f1-a0ed-c5a16c1ed933','01a21526-2212-77a7-922b-5005cbd483ba','silent-while-posturing','silence','this-week','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
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
COMMIT;
