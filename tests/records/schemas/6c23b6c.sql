BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'followup','m001_people','2026-11-26 06:03:29.350046+00:00');
INSERT INTO "_sqlite_migrations" VALUES(2,'followup','m002_eyes','2026-11-26 06:03:29.363458+00:00');
INSERT INTO "_sqlite_migrations" VALUES(3,'followup','m003_worries','2026-11-26 06:03:29.374879+00:00');
INSERT INTO "_sqlite_migrations" VALUES(4,'followup','m004_audit','2026-11-26 06:03:29.377885+00:00');
INSERT INTO "_sqlite_migrations" VALUES(5,'followup','m005_messages','2026-11-26 06:03:29.385802+00:00');
INSERT INTO "_sqlite_migrations" VALUES(6,'followup','m006_repair','2026-11-26 06:03:29.397606+00:00');
INSERT INTO "_sqlite_migrations" VALUES(7,'followup','m007_tasks','2026-11-26 06:03:29.401184+00:00');
INSERT INTO "_sqlite_migrations" VALUES(8,'followup','m008_visit_identities','2026-11-26 06:03:29.409604+00:00');
INSERT INTO "_sqlite_migrations" VALUES(9,'followup','m009_watch','2026-11-26 06:03:29.419331+00:00');
INSERT INTO "_sqlite_migrations" VALUES(10,'followup','m011_bounds','2026-11-26 06:03:29.424930+00:00');
INSERT INTO "_sqlite_migrations" VALUES(11,'followup','m020_two_eyes','2026-11-26 06:03:29.492004+00:00');
INSERT INTO "_sqlite_migrations" VALUES(12,'followup','m021_grounds_of_warnings','2026-11-26 06:03:29.504049+00:00');
INSERT INTO "_sqlite_migrations" VALUES(13,'followup','m025_joined_by_index','2026-11-26 06:03:29.516759+00:00');
INSERT INTO "_sqlite_migrations" VALUES(14,'followup','m026_one_call','2026-11-26 06:03:29.541672+00:00');
INSERT INTO "_sqlite_migrations" VALUES(15,'followup','m027_book_of_visits','2026-11-26 06:03:29.566509+00:00');
INSERT INTO "_sqlite_migrations" VALUES(16,'followup','m028_current_state','2026-11-26 06:03:29.594241+00:00');
INSERT INTO "_sqlite_migrations" VALUES(17,'followup','m029_sessions','2026-11-26 06:03:29.651520+00:00');
INSERT INTO "_sqlite_migrations" VALUES(18,'followup','m030_sealed_facts','2026-11-26 06:03:29.671472+00:00');
INSERT INTO "_sqlite_migrations" VALUES(19,'followup','m031_carers_and_drops','2026-11-26 06:03:29.690721+00:00');
INSERT INTO "_sqlite_migrations" VALUES(20,'followup','m032_rights','2026-11-26 06:03:29.709708+00:00');
INSERT INTO "_sqlite_migrations" VALUES(21,'followup','m029_theatre','2026-11-26 06:03:29.722552+00:00');
CREATE TABLE audit (
            number INTEGER PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, action TEXT NOT NULL, subject TEXT NOT NULL,
            detail TEXT NOT NULL, previous TEXT NOT NULL, hash TEXT NOT NULL
        , facts TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "audit" VALUES(1,'2027-03-02T14:00:00.000000Z','command line','staff added','01a21673-ae4d-7330-b644-3f19164651e3','{"role":"nurse"}','0000000000000000000000000000000000000000000000000000000000000000','18e88f82b2e7ed4a9a82b695ddd20038a6f07ebcaf3d3bfc25f9ecf3a40c00ad','[["staff", "01a21673-ae4d-7330-b644-3f19164651e3", "6445449880e13045185d41c8b4da3ee9410dd43a39f1fbec19ea4d254f13ba19"]]');
INSERT INTO "audit" VALUES(2,'2027-03-02T14:00:00.000000Z','command line','staff added','01a21673-ae5c-743c-87b3-bfb99351ca99','{"role":"surgeon"}','18e88f82b2e7ed4a9a82b695ddd20038a6f07ebcaf3d3bfc25f9ecf3a40c00ad','188dc63fd47c61dc1a4dcf9849fd385d91051dd335279a59a1e7fad5ccfbd85e','[["staff", "01a21673-ae5c-743c-87b3-bfb99351ca99", "7a404f4343023eb0cff96f0bbaf0fcaff7da8a4970055d44f94c08e8a8505ae6"]]');
INSERT INTO "audit" VALUES(3,'2027-03-02T19:00:00.000000Z','nurse:01a21673-ae4d-7330-b644-3f19164651e3','enrolment code','01a21673-ae61-7491-b3ff-d5264c202d0e','null','188dc63fd47c61dc1a4dcf9849fd385d91051dd335279a59a1e7fad5ccfbd85e','ea3317137b9570fcf93767aef0ab8895327e52f62d0647ce0f91eeda85553102','');
INSERT INTO "audit" VALUES(4,'2027-03-02T19:00:00.000000Z','nurse:01a21673-ae4d-7330-b644-3f19164651e3','discharge','01a21673-ae61-7491-b3ff-d527f19e86c2','{"agent":"c2f6","eye":"right"}','ea3317137b9570fcf93767aef0ab8895327e52f62d0647ce0f91eeda85553102','6ba270ab1508e373a3776c82f0d6e3680e605650dea1962ef58b2f0ad648756d','[["patients", "01a21673-ae61-7491-b3ff-d5264c202d0e", "a636ec58a43e50fe5a5f6de8446c24bf3b49dd0771ddd81c37707e034cafcf27"], ["eyes", "01a21673-ae61-7491-b3ff-d527f19e86c2", "c6eb8c44fe1b175e990ba634b814fe99048109e02f3c422a98dbbeca59c57cd8"], ["eyes", "01a21673-ae61-7491-b3ff-d528b0873554", "9b51acc8b98240bd668597222362a027a9ef101040892726558a3fc5bb089606"], ["operations", "01a21673-ae63-7231-9480-39ef50c328bf", "fc5854121cccf9d6cb83a46dd1f3af221750225b492723b53cf36613a8e560bf"], ["operation_records", "01a21673-ae63-7231-9480-39f04a677023", "005656be94efdb6e5a36b5d98f37500d2d7abb9eecc56c60f5c073889ca4da8a"], ["visits", "01a21673-ae63-7231-9480-39f11625f728", "1fa909e6e1c7db56c17fa21505a2357386e7ba4e5ad7f979aef060fa93315579"], ["visits", "01a21673-ae63-7231-9480-39f2f215cbcb", "9d99ede77c009866e48a1bcc3c85566e9f847f3e34ef278a7f40e96515f3e99b"], ["follow_ups", "01a21673-ae64-77a5-9bfc-1729f1bcf8b8", "672661b498ba3518d097cb8f443ae99ebe48ee2da1deb5bced0d2c74dc5bd03d"]]');
INSERT INTO "audit" VALUES(5,'2027-03-02T19:00:00.000000Z','nurse:01a21673-ae4d-7330-b644-3f19164651e3','enrolment code','01a21673-ae81-7057-9047-05b03e7562cf','null','6ba270ab1508e373a3776c82f0d6e3680e605650dea1962ef58b2f0ad648756d','0d092e032101105c51cdb9aff606b1a31352a54d8c479aff6579ce4f804f3b02','');
INSERT INTO "audit" VALUES(6,'2027-03-02T19:00:00.000000Z','nurse:01a21673-ae4d-7330-b644-3f19164651e3','discharge','01a21673-ae81-7057-9047-05b107d9d9bc','{"agent":"silicone-oil","eye":"right"}','0d092e032101105c51cdb9aff606b1a31352a54d8c479aff6579ce4f804f3b02','1c559a46cad61074b0e85b790398b77d6e04eeaeff6d6407ad29c7b4a2c65c53','[["patients", "01a21673-ae81-7057-9047-05b03e7562cf", "b7fb7a1d7285b6f6c39a53a8df50a9311a8a011a559a0e2665372067e7439ae9"], ["eyes", "01a21673-ae81-7057-9047-05b107d9d9bc", "af0e4a19e7534f5eb964e0485ecb1a12d4dbc8a0d6a2ba6be1c754b201ee3593"], ["eyes", "01a21673-ae81-7057-9047-05b2d46589e3", "25d3fe9771edd7690354c142c635e332a634eb639f22437ebf09395688853d78"], ["operations", "01a21673-ae81-7057-9047-05b33cc2ad9a", "ee12c860bdea0dbd98b9da666b5c97d78b387b364bb615fa5f0d55cd8881ddeb"], ["operation_records", "01a21673-ae81-7057-9047-05b49ad40f99", "301bd26009daea1ecfb2ee8c214ad2beda6aecedabc4f50ff5ecc298b8d4cb9c"], ["visits", "01a21673-ae84-73f0-8a4c-1b97086c144c", "561249aef00d357e51a2effe7d9d0e9de8267e099d4719a3e32676fea0d240fd"], ["visits", "01a21673-ae84-73f0-8a4c-1b9856617ab1", "76a3fa3d7f88779895e69c70036b546e39a867fa5d9adc1fc4214d7324d1f4d9"], ["follow_ups", "01a21673-ae84-73f0-8a4c-1b9960cec3b3", "82eb69f085367e5dc04d64b21e98e37870a4c946d8856b407cee5d06beb103a3"]]');
INSERT INTO "audit" VALUES(7,'2027-03-02T14:00:00.000000Z','nurse:01a21673-ae4d-7330-b644-3f19164651e3','consent given','01a21673-ae61-7491-b3ff-d5264c202d0e','{"said_by":"patient","what":"phone"}','1c559a46cad61074b0e85b790398b77d6e04eeaeff6d6407ad29c7b4a2c65c53','11f7fe54054006e1dedd5029df4d13f4acdba04b1b73a75302b136981eb678d9','[["consents", "01a21673-ae95-737a-b919-399acf5852d9", "e6effec6932b537074877ae07b0bcba3656b77730e524a7f898eee0112556b5e"]]');
INSERT INTO "audit" VALUES(8,'2027-03-02T20:00:00.000000Z','patient:01a21673-aea9-717f-9cf8-ce81647e0582','device enrolled','01a21673-ae61-7491-b3ff-d5264c202d0e','null','11f7fe54054006e1dedd5029df4d13f4acdba04b1b73a75302b136981eb678d9','51ed448e12263c3e8d09678d8d9f02cd867bb2102385f7ffa18dfcf4bcd413a8','[["devices", "01a21673-aea9-717f-9cf8-ce81647e0582", "b6cd500f17f2f4484132d11e7450c4327113a40f8ef80078f36466c2d7ea1d45"]]');
INSERT INTO "audit" VALUES(9,'2027-03-05T10:00:00.000000Z','patient:01a21673-aea9-717f-9cf8-ce81647e0582','event posture','01a21673-ae61-7491-b3ff-d527f19e86c2','{"id":"0195e5a0-0000-7000-8000-000000000001"}','51ed448e12263c3e8d09678d8d9f02cd867bb2102385f7ffa18dfcf4bcd413a8','12f4a2aaaeedab912ea480a9a76ef0f7344c4dc55fc99933f4c34c4119c3f493','');
INSERT INTO "audit" VALUES(10,'2027-03-05T10:00:00.000000Z','patient:01a21673-aea9-717f-9cf8-ce81647e0582','event symptoms','01a21673-ae61-7491-b3ff-d527f19e86c2','{"id":"0195e5a0-0000-7000-8000-000000000002"}','12f4a2aaaeedab912ea480a9a76ef0f7344c4dc55fc99933f4c34c4119c3f493','45c68e7fdcc9cee3e0ae7f78a9afe0c50d1710a7cf65f78f75e3f24ab1ffe0be','');
INSERT INTO "audit" VALUES(11,'2027-03-05T10:00:00.000000Z','device:01a21673-aea9-717f-9cf8-ce81647e0582','entry refused','0195e5a0-0000-7000-8000-000000000003','null','45c68e7fdcc9cee3e0ae7f78a9afe0c50d1710a7cf65f78f75e3f24ab1ffe0be','184168af037301a3b53fdbb29c46b61feaa12176b3b78f24eb9d4f820fe18a12','');
INSERT INTO "audit" VALUES(12,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21673-ae61-7491-b3ff-d527f19e86c2','{"how_soon":"today","rule":"missed-early-visit"}','184168af037301a3b53fdbb29c46b61feaa12176b3b78f24eb9d4f820fe18a12','4a3a416db8236fea7c9356b658c529a0b118d021f48e472c139c3c0ede7a596b','');
INSERT INTO "audit" VALUES(13,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21673-ae61-7491-b3ff-d527f19e86c2','{"how_soon":"this-week","rule":"posture-missed"}','4a3a416db8236fea7c9356b658c529a0b118d021f48e472c139c3c0ede7a596b','781a7e4958de2705c9ea27d684801466ecf52bbdfd69b690111df6d20b3c31cd','');
INSERT INTO "audit" VALUES(14,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21673-ae61-7491-b3ff-d527f19e86c2','{"how_soon":"this-week","rule":"silent-while-posturing"}','781a7e4958de2705c9ea27d684801466ecf52bbdfd69b690111df6d20b3c31cd','3260d7563815ce0d98cf9e7b11eb5a30870cf915cb87b20ed194344655dd9e02','');
INSERT INTO "audit" VALUES(15,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21673-ae61-7491-b3ff-d527f19e86c2','{"how_soon":"this-week","rule":"no-posture-entry"}','3260d7563815ce0d98cf9e7b11eb5a30870cf915cb87b20ed194344655dd9e02','6a34843d1aa214542c71c90fcd4b517bbca302a738519ff839bb3ef0df68ee1c','');
INSERT INTO "audit" VALUES(16,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21673-ae61-7491-b3ff-d527f19e86c2','{"how_soon":"now","rule":"infection-suspected"}','6a34843d1aa214542c71c90fcd4b517bbca302a738519ff839bb3ef0df68ee1c','49d76511550c49a5b5c744f1228b02732232806ee04f106a59d4cbb37a72d2a7','');
INSERT INTO "audit" VALUES(17,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21673-ae61-7491-b3ff-d527f19e86c2','{"how_soon":"now","rule":"severe-pain"}','49d76511550c49a5b5c744f1228b02732232806ee04f106a59d4cbb37a72d2a7','8c18f01107329753204fdc1b3268124251791feb1b09e2bab326f6c06907989e','');
INSERT INTO "audit" VALUES(18,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21673-ae61-7491-b3ff-d527f19e86c2','{"how_soon":"today","rule":"curtain"}','8c18f01107329753204fdc1b3268124251791feb1b09e2bab326f6c06907989e','d09cae26ec964ae606c6db46e6764a72519797623549d9aeecf43da44f221b25','');
INSERT INTO "audit" VALUES(19,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21673-ae61-7491-b3ff-d527f19e86c2','{"how_soon":"today","rule":"pain"}','d09cae26ec964ae606c6db46e6764a72519797623549d9aeecf43da44f221b25','1c687ce3dc289f8f12ff570f07393c38a5917a2d6df810351c453bfa63ef953e','');
INSERT INTO "audit" VALUES(20,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21673-ae61-7491-b3ff-d527f19e86c2','{"how_soon":"today","rule":"vision-worse"}','1c687ce3dc289f8f12ff570f07393c38a5917a2d6df810351c453bfa63ef953e','eaa32354e83d85890a5ee67e4655da14cf5a35855ee8a846aa4d4daceb384a96','');
INSERT INTO "audit" VALUES(21,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21673-ae61-7491-b3ff-d527f19e86c2','{"how_soon":"this-week","rule":"vision-said-worse"}','eaa32354e83d85890a5ee67e4655da14cf5a35855ee8a846aa4d4daceb384a96','455c7e0c8cc0b7f6cc5866ee7733db8f99463db4742c8acae413679fd8013759','[["events", "0195e5a0-0000-7000-8000-000000000001", "0e0c478c472fb8d6cf4424e2ea973e73aeff842bd89e8082ff8c2c4fe8afffcf"], ["events", "0195e5a0-0000-7000-8000-000000000002", "334f1daef5ee3d638250f2add59f44c7908621e456bcd412155cf9df6919f7fa"], ["refused_events", "c1b00b316a3bbab99fb4efa2f273e96bf93cdc82cd8c06110b5609835945d58b", "f44053e63e7dcbb4d45abef5ed5f08b153089c8d8913d7ea737d527687b00124"], ["callbacks", "01a21673-aeec-74e9-8882-291680b2270c", "85274fab30bb4604795b575e4d4cda2e925c98a1be4fb76d86a4f3171e2348da"], ["callback_steps", "01a21673-aeed-7108-a1cd-96234349841b", "197982fdbb7e636423e903221e690d4484bbafc0c54169f5e8c6de60bc619dcf"], ["warnings", "01a21673-aeed-7108-a1cd-96245bc428af", "c1f75b979b2b2b59a45cbdb432a2b1f93d8142ab9790fe595a9cd60e32a6b941"], ["callbacks", "01a21673-aeee-7371-9069-3dd71abf2308", "3dc435c09fdb4ce7760a398d331d0a8e6234e8569690dde2facb5e370bbde12b"], ["callback_steps", "01a21673-aeee-7371-9069-3dd89d460afb", "974840e335ade9fe1e9bb86f4edde8a6403bd059aa4deeb78ad804907cdb9378"], ["warnings", "01a21673-aeee-7371-9069-3dd930616ff0", "7e401a65e69c93f53436e10e18e30e2de59ccaea17b6a0c408cff2d517fed795"], ["callbacks", "01a21673-aeee-7371-9069-3dda15631a55", "d2f4df0f2b2864142f5838f169670f5f878151e842352ba82f24dc37ba586dd6"], ["callback_steps", "01a21673-aeee-7371-9069-3ddb3c86f803", "40d5020bdac33c150631c6298ef55f6f350e1c570f3cb2a75e09e0bd3fce6c4b"], ["warnings", "01a21673-aeee-7371-9069-3ddc1621455c", "754715a0124dbefd11dc5dc272baf315246243cadee714d3eaf7f62827a68e00"], ["callback_steps", "01a21673-aeee-7371-9069-3dddc1f2f28f", "5c12f0a9cab8aac529f6b4d9293ed4cea06647faca1c7e7ba96a8cd65a924ff2"], ["warnings", "01a21673-aeee-7371-9069-3dde3d335656", "fb07c4bc5a0a2281813cb96300f6e588a14156238511fce524caabc5493bfc2a"], ["callbacks", "01a21673-aeee-7371-9069-3ddf0733051c", "b2e54b2f228724ceba88106cf60552fa0a5c7d59f1627c04a16a9dbc05573573"], ["callback_steps", "01a21673-aeee-7371-9069-3de08adad7ef", "0f2eded94427458d0393256bc8547c057996566486413cd6478f654a4a11cd4c"], ["warnings", "01a21673-aeee-7371-9069-3de133a5c8f3", "a0a3923cc398a27d6f24c6c4071ba1a2afe31ea3ff86ba60b8dfa3d3f6dac389"], ["callbacks", "01a21673-aeef-77cd-90fa-b51b2ad07063", "caead56b6ab42b371d1aa5e63332b6b1370b6b4d3886190b51981f38e3cc7b1b"], ["callback_steps", "01a21673-aeef-77cd-90fa-b51c6b038954", "4fdec77b766c2be959586acdf468323c61a68d854eca9a1304e77228893a417c"], ["warnings", "01a21673-aef4-7521-9de9-bc4f101dde82", "209893d329b1e746990748329de920bbccad0370c02e085f0e13026af526cafe"], ["callbacks", "01a21673-aef5-72df-8959-32508c2c95db", "37718bf55ccaeb3f322a7f7fd0cfde4a9afafb2c42e2b388663fdde30844ac60"], ["callback_steps", "01a21673-aef5-72df-8959-32515cf9a79c", "7a9511a09ee6ec3d3bb39f97d08d7e43465b3f06aa0d5772723c25a265f55ff1"], ["warnings", "01a21673-aef5-72df-8959-325257779923", "b6802cbfd974bc6fac9899a2823b41b1d821365f5422a05900cd601c872c4a9d"], ["callback_steps", "01a21673-aef5-72df-8959-3253cc3bff05", "2557b91590648590a6e72184116ab8e9fc8438fcf7b1d2186e9f76f28fb08edf"], ["warnings", "01a21673-aef5-72df-8959-3254e2107a62", "5763bfd025041194867117fa2ddf3dd23386825829c5c2adf39353e26ba65955"], ["callback_steps", "01a21673-aef5-72df-8959-32551d432867", "103a5edf13c384635a27f51532c5250145b50395089819a49b27d224a2cdc55b"], ["warnings", "01a21673-aef5-72df-8959-3256e544a08f", "c4297cd52b7fd501a5b203f6e7c82c4f9c390a899baa5acd88adec5dc8f5a997"], ["callback_steps", "01a21673-aef5-72df-8959-3257b63a830b", "3e0267368bc184d6c6b15f57550083b7639586303b3c4ba817fbf59a9af5aa78"], ["warnings", "01a21673-aef5-72df-8959-3258fc45d838", "b3dc9154c2e775537ee61bc8108ea174780130cd7843acc2d564a0c4f8147ca6"]]');
INSERT INTO "audit" VALUES(22,'2027-03-05T10:00:00.000000Z','nurse:01a21673-ae4d-7330-b644-3f19164651e3','event measures','01a21673-ae61-7491-b3ff-d527f19e86c2','{"id":"01a21673-af10-73b0-840f-1e914159dcca"}','455c7e0c8cc0b7f6cc5866ee7733db8f99463db4742c8acae413679fd8013759','47f020439ede728742a4d431454534701fad039400ab34a59146565d3fbb7a04','');
INSERT INTO "audit" VALUES(23,'2027-03-05T10:00:00.000000Z','nurse:01a21673-ae4d-7330-b644-3f19164651e3','event seen','01a21673-ae61-7491-b3ff-d527f19e86c2','{"id":"01a21673-af11-75f3-abad-ca2e82de9b3d"}','47f020439ede728742a4d431454534701fad039400ab34a59146565d3fbb7a04','59db1d870eaafdb3a70f0fb5f986f3faa70bf953997a2f8f4d049fd29ecec411','');
INSERT INTO "audit" VALUES(24,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21673-ae61-7491-b3ff-d527f19e86c2','{"how_soon":"now","rule":"pressure-severe"}','59db1d870eaafdb3a70f0fb5f986f3faa70bf953997a2f8f4d049fd29ecec411','c79cb9c0d0c9665be076e82d8002945f077056ec2f193d0d7f737eedfc3ce413','');
INSERT INTO "audit" VALUES(25,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21673-ae61-7491-b3ff-d527f19e86c2','{"how_soon":"today","rule":"pressure-spike"}','c79cb9c0d0c9665be076e82d8002945f077056ec2f193d0d7f737eedfc3ce413','a229fa4df73693c2b2b7488c1ec062137fd4e87a21c5451118ce63d1bcb37fbd','');
INSERT INTO "audit" VALUES(26,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21673-ae61-7491-b3ff-d527f19e86c2','{"how_soon":"this-week","rule":"pressure-raised"}','a229fa4df73693c2b2b7488c1ec062137fd4e87a21c5451118ce63d1bcb37fbd','8a5d945c885b07fdf1a9cec4094762f61897c08ca9f54c09b8f7326ef0431f5b','');
INSERT INTO "audit" VALUES(27,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21673-ae61-7491-b3ff-d527f19e86c2','{"how_soon":"this-week","rule":"pressure-rise"}','8a5d945c885b07fdf1a9cec4094762f61897c08ca9f54c09b8f7326ef0431f5b','5edf0dfbb87b4e033e90b349f616e437ce36babbdb5bca08cabed96c44f28175','');
INSERT INTO "audit" VALUES(28,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21673-ae61-7491-b3ff-d527f19e86c2','{"how_soon":"this-week","rule":"pressure-rising"}','5edf0dfbb87b4e033e90b349f616e437ce36babbdb5bca08cabed96c44f28175','ec7940c5aadd5eca690406e9b117ae779ba346a546a1c35ae651f824b4ee844d','[["events", "01a21673-af10-73b0-840f-1e914159dcca", "414a51877b0a1c6fa48c38f34a4b3dc171916ebd6e29921febf11eb81fb7e14b"], ["events", "01a21673-af11-75f3-abad-ca2e82de9b3d", "28cf99b5275e5514799b925dc3acec34d861468c83306632e5da0e148e6949c1"], ["callback_steps", "01a21673-af13-77f1-924c-c622afe34011", "680f08c97fb4d5ea64dda88188ae96b76139a690b2ebc8578e64d908c97b3c6d"], ["warnings", "01a21673-af13-77f1-924c-c6235c7d30cc", "465292f72f5919cf4ec5c9c29ed13d2dfecf02b6b5183e446c59394ffe0456e4"], ["callback_steps", "01a21673-af13-77f1-924c-c62402387366", "d510abe9d6d5a0f2cc01cd245aa1e097eac8ed170d5a70b64ae4e719c66bdbc0"], ["warnings", "01a21673-af13-77f1-924c-c6257b277166", "6be74c4b1339941f38600702163cb2e06bac42dc26914bf4ac12af3f8b4d741b"], ["callback_steps", "01a21673-af14-769c-9e2b-adfa442c1d90", "c2f597ced2d3e1eb378426878a8ed5945fe489ad81e2ed294c0cb77bbebf345c"], ["warnings", "01a21673-af14-769c-9e2b-adfbf25ef731", "91b65b481ecb7fa3b6bceec33282c46f220694d291656343b4491d73dcf10261"], ["callback_steps", "01a21673-af14-769c-9e2b-adfcfe8e0aee", "d245dac9560a937f4c72904a9ed6db8fbecf63791b20741644d869c311f446f1"], ["warnings", "01a21673-af14-769c-9e2b-adfd0c696ef2", "8b986ce85114d8483650ce1f8775f15c4baf63bbb2e90222c0f9112dbc6fadc0"], ["callback_steps", "01a21673-af1c-7573-a9f5-fb938f27c69b", "b8e1cd065ba48220cea64fba765c479ac9b20fe480198fcd6ad027b750471fe3"], ["warnings", "01a21673-af1c-7573-a9f5-fb946805fceb", "45b4ad531ca6d9b9f65c7726f52fc8048043d451f81688291a38489ed8bc9cf0"]]');
INSERT INTO "audit" VALUES(29,'2027-03-05T10:00:00.000000Z','nurse:01a21673-ae4d-7330-b644-3f19164651e3','event measures','01a21673-ae81-7057-9047-05b107d9d9bc','{"id":"01a21673-af31-7254-9156-d9f13bf89146"}','ec7940c5aadd5eca690406e9b117ae779ba346a546a1c35ae651f824b4ee844d','75dd2f7d0360b9aab445f55cc5600ef6387a4c201664d72464a378cb66de2be5','');
INSERT INTO "audit" VALUES(30,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21673-ae81-7057-9047-05b107d9d9bc','{"how_soon":"today","rule":"missed-early-visit"}','75dd2f7d0360b9aab445f55cc5600ef6387a4c201664d72464a378cb66de2be5','7ec3911b5db8130bead540156fb8758330b33bf5b097deac87b8cbf7f89eb923','');
INSERT INTO "audit" VALUES(31,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21673-ae81-7057-9047-05b107d9d9bc','{"how_soon":"this-week","rule":"no-posture-entry"}','7ec3911b5db8130bead540156fb8758330b33bf5b097deac87b8cbf7f89eb923','054838b25eb3f16b436b87444630733ffe7ea96b7e6fe1b6b5e26bc6c73f8776','');
INSERT INTO "audit" VALUES(32,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21673-ae81-7057-9047-05b107d9d9bc','{"how_soon":"this-week","rule":"silent-while-posturing"}','054838b25eb3f16b436b87444630733ffe7ea96b7e6fe1b6b5e26bc6c73f8776','88c99e233232164bc0e187f5f6a157c5026ce2eb9abd53dc6eb1c757124e0823','[["events", "01a21673-af31-7254-9156-d9f13bf89146", "cf79d9ced4f6509914a121bd909968f7559f7fa3f4c05f59a751226b8cdbff68"], ["callbacks", "01a21673-af32-7678-b041-ecdc65bf6453", "a7661fa386373a7a11489f9c72c1f5cead2d85708e4915afd95e6f36523a0496"], ["callback_steps", "01a21673-af32-7678-b041-ecddc6c97ba5", "67179b7b6901dddf562e6706ce1564ff1d5548dad4edf249a9f7af958358f1ab"], ["warnings", "01a21673-af32-7678-b041-ecde69b6a7d6", "5a619eb8e9eacceeaff713af0877f47d9e98013e12964edc22ad8118f94174f0"], ["callbacks", "01a21673-af32-7678-b041-ecdffbafd29b", "fa607f2422a4589904be1e73c9cd9a8dc4fff7f090c0e694aebdbba52b17577e"], ["callback_steps", "01a21673-af32-7678-b041-ece04a7cb794", "6f8db41db9956d7575b9d3201d82542683046a9eeb0c7e578ae0cd814e3440d9"], ["warnings", "01a21673-af32-7678-b041-ece1f02bfac4", "f4d1dff6f319201615ac3e46639f5c4cf4bce98c72172e4d924193f2dd581197"], ["callback_steps", "01a21673-af33-7390-bf0d-bb33e2bc9744", "5d9a270cf844de32870125fcf60b92b4aa509cc52fe085f318d2b44ea9ee1655"], ["warnings", "01a21673-af33-7390-bf0d-bb347784bc4d", "606c29147f9bf2aa02001d5f261b543f85136afb950d8b8b2196f36eb1c1419b"]]');
INSERT INTO "audit" VALUES(33,'2027-03-05T10:00:00.000000Z','nurse:01a21673-ae4d-7330-b644-3f19164651e3','callback claimed','01a21673-aeee-7371-9069-3ddf0733051c','null','88c99e233232164bc0e187f5f6a157c5026ce2eb9abd53dc6eb1c757124e0823','db30257f462d37c973f7fcd86a9c78c720d98d1c915be2ba71fb164059700d88','[["callbacks", "01a21673-aeee-7371-9069-3ddf0733051c", "94daa763104a4ed8e01aa9e83b43fd962481fa350f1de6d867e3d89a0504f910"], ["callback_steps", "01a21673-af4a-7460-850b-24165cc54d38", "76b9e9ed4e29bf7971995f60a43e919cf94304902da91ea4bd30f4151d7d731b"]]');
INSERT INTO "audit" VALUES(34,'2027-03-05T10:00:00.000000Z','nurse:01a21673-ae4d-7330-b644-3f19164651e3','callback attempt','01a21673-aeee-7371-9069-3ddf0733051c','{"reached":true}','db30257f462d37c973f7fcd86a9c78c720d98d1c915be2ba71fb164059700d88','07261f190eaef9722c3b4190afc51350f8c291653d53db3f1d6fc3e2a66df64a','[["events", "01a21673-af5b-7364-bee8-e106a0a0aad3", "3bd3f0ae2d2dabec0ed4defc4f4627fe6768c56ddbbf5541265af6c95bbc7588"], ["callback_steps", "01a21673-af5b-7364-bee8-e107a85d7a2c", "5e1740c10237079f10a17f1838574fec1978a68708e82d1bc1a2a6f0a1631c70"], ["callbacks", "01a21673-aeee-7371-9069-3ddf0733051c", "94daa763104a4ed8e01aa9e83b43fd962481fa350f1de6d867e3d89a0504f910"]]');
INSERT INTO "audit" VALUES(35,'2027-03-05T10:00:00.000000Z','nurse:01a21673-ae4d-7330-b644-3f19164651e3','callback settled','01a21673-aeee-7371-9069-3ddf0733051c','{"outcome":"advice"}','07261f190eaef9722c3b4190afc51350f8c291653d53db3f1d6fc3e2a66df64a','4248141396729ee9e73671dbf7f475576cc3e6ab1a6af027073fe3662e84e077','[["callbacks", "01a21673-aeee-7371-9069-3ddf0733051c", "154a349913304e7056d9918ea6ebe759d04d6380a81e708113208800997d6e96"], ["callback_steps", "01a21673-af71-7641-bd96-5bb1f4a5cc00", "e74ea9aab5a418b537c397d5e4d9b3a2a4855d826b9b24009b78559448a1e5d9"]]');
INSERT INTO "audit" VALUES(36,'2027-03-05T10:00:00.000000Z','surgeon:01a21673-ae5c-743c-87b3-bfb99351ca99','protocol signed','reviews','{"fingerprint":"51499c130f73c9d0"}','4248141396729ee9e73671dbf7f475576cc3e6ab1a6af027073fe3662e84e077','c2aa31077539d03ff1b901025093dd75499b93e9ecb987190a47c6b9ba2317a5','[["signatures", "01a21673-af7d-770a-a5c2-1390a3cac9a9", "e18bde33cdfd34be6a5a851e502e9dd113c01e482be5e2eccbf0e5bff7261e8a"]]');
CREATE TABLE call_people (
            who TEXT NOT NULL, patient_id TEXT NOT NULL, PRIMARY KEY (who, patient_id)
        ) STRICT, WITHOUT ROWID;
CREATE TABLE call_states (
            patient_id TEXT PRIMARY KEY, urgency INTEGER NOT NULL, since TEXT NOT NULL, first TEXT NOT NULL,
            level INTEGER NOT NULL, decided INTEGER NOT NULL
        ) STRICT;
CREATE TABLE callback_steps (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks, at TEXT NOT NULL, who TEXT NOT NULL,
            step TEXT NOT NULL, detail TEXT NOT NULL
        ) STRICT;
INSERT INTO "callback_steps" VALUES('01a21673-aeed-7108-a1cd-96234349841b','01a21673-aeec-74e9-8882-291680b2270c','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a21673-aeee-7371-9069-3dd89d460afb','01a21673-aeee-7371-9069-3dd71abf2308','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"posture-missed","words":"Only 3 of 12 hours of posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a21673-aeee-7371-9069-3ddb3c86f803','01a21673-aeee-7371-9069-3dda15631a55','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a21673-aeee-7371-9069-3dddc1f2f28f','01a21673-aeee-7371-9069-3dda15631a55','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-04."}');
INSERT INTO "callback_steps" VALUES('01a21673-aeee-7371-9069-3de08adad7ef','01a21673-aeee-7371-9069-3ddf0733051c','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"infection-suspected","words":"Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five."}');
INSERT INTO "callback_steps" VALUES('01a21673-aeef-77cd-90fa-b51c6b038954','01a21673-aeef-77cd-90fa-b51b2ad07063','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"severe-pain","words":"Severe pain (8 of 10): pressure and infection must be ruled out."}');
INSERT INTO "callback_steps" VALUES('01a21673-aef5-72df-8959-32515cf9a79c','01a21673-aef5-72df-8959-32508c2c95db','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"curtain","words":"A curtain or shadow that does not move with the bubble: new detachment until shown otherwise."}');
INSERT INTO "callback_steps" VALUES('01a21673-aef5-72df-8959-3253cc3bff05','01a21673-aeef-77cd-90fa-b51b2ad07063','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pain","words":"Pain of 8 of 10, beyond what simple painkillers usually hold."}');
INSERT INTO "callback_steps" VALUES('01a21673-aef5-72df-8959-32551d432867','01a21673-aef5-72df-8959-32508c2c95db','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"vision-worse","words":"The patient says that the vision fell."}');
INSERT INTO "callback_steps" VALUES('01a21673-aef5-72df-8959-3257b63a830b','01a21673-aef5-72df-8959-32508c2c95db','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"vision-said-worse","words":"The patient said that the vision fell. Ask again, whatever the second look said."}');
INSERT INTO "callback_steps" VALUES('01a21673-af13-77f1-924c-c622afe34011','01a21673-aeef-77cd-90fa-b51b2ad07063','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"now","rule":"pressure-severe","words":"Pressure 41 mmHg, at or above 40."}');
INSERT INTO "callback_steps" VALUES('01a21673-af13-77f1-924c-c62402387366','01a21673-aeef-77cd-90fa-b51b2ad07063','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pressure-spike","words":"Pressure 41 mmHg, at or above 30."}');
INSERT INTO "callback_steps" VALUES('01a21673-af14-769c-9e2b-adfa442c1d90','01a21673-aeef-77cd-90fa-b51b2ad07063','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-raised","words":"Pressure 41 mmHg, at or above 24."}');
INSERT INTO "callback_steps" VALUES('01a21673-af14-769c-9e2b-adfcfe8e0aee','01a21673-aeef-77cd-90fa-b51b2ad07063','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rise","words":"Pressure 41 mmHg, 26 above this eye’s own 15."}');
INSERT INTO "callback_steps" VALUES('01a21673-af1c-7573-a9f5-fb938f27c69b','01a21673-aeef-77cd-90fa-b51b2ad07063','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rising","words":"Pressure 41 mmHg, 26 above what is usual for this eye (15)."}');
INSERT INTO "callback_steps" VALUES('01a21673-af32-7678-b041-ecddc6c97ba5','01a21673-af32-7678-b041-ecdc65bf6453','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a21673-af32-7678-b041-ece04a7cb794','01a21673-af32-7678-b041-ecdffbafd29b','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a21673-af33-7390-bf0d-bb33e2bc9744','01a21673-af32-7678-b041-ecdffbafd29b','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a21673-af4a-7460-850b-24165cc54d38','01a21673-aeee-7371-9069-3ddf0733051c','2027-03-05T10:00:00.000000Z','nurse:01a21673-ae4d-7330-b644-3f19164651e3','claimed','{"by":"Nora Nurse"}');
INSERT INTO "callback_steps" VALUES('01a21673-af5b-7364-bee8-e107a85d7a2c','01a21673-aeee-7371-9069-3ddf0733051c','2027-03-05T10:00:00.000000Z','nurse:01a21673-ae4d-7330-b644-3f19164651e3','reached','{"by":"Nora Nurse","next_try":null,"spoke_to":"patient","words":"comes at once"}');
INSERT INTO "callback_steps" VALUES('01a21673-af71-7641-bd96-5bb1f4a5cc00','01a21673-aeee-7371-9069-3ddf0733051c','2027-03-05T10:00:00.000000Z','nurse:01a21673-ae4d-7330-b644-3f19164651e3','settled','{"by":"Nora Nurse","outcome":"advice","words":"comes at two"}');
CREATE TABLE callbacks (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", worry TEXT NOT NULL,
            how_soon TEXT NOT NULL CHECK (how_soon IN ('now', 'today', 'this-week')),
            opened_at TEXT NOT NULL, due_at TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('waiting', 'claimed', 'settled')),
            claimed_by TEXT REFERENCES staff, claimed_at TEXT, settled_at TEXT, outcome TEXT,
            level INTEGER NOT NULL DEFAULT 0
        , settled_by TEXT REFERENCES staff, next_try_at TEXT, moved_up INTEGER NOT NULL DEFAULT 0) STRICT;
INSERT INTO "callbacks" VALUES('01a21673-aeec-74e9-8882-291680b2270c','01a21673-ae61-7491-b3ff-d527f19e86c2','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21673-aeee-7371-9069-3dd71abf2308','01a21673-ae61-7491-b3ff-d527f19e86c2','posture','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21673-aeee-7371-9069-3dda15631a55','01a21673-ae61-7491-b3ff-d527f19e86c2','silence','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21673-aeee-7371-9069-3ddf0733051c','01a21673-ae61-7491-b3ff-d527f19e86c2','infection','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','settled','01a21673-ae4d-7330-b644-3f19164651e3','2027-03-05T10:00:00.000000Z','2027-03-05T10:00:00.000000Z','advice',0,'01a21673-ae4d-7330-b644-3f19164651e3',NULL,0);
INSERT INTO "callbacks" VALUES('01a21673-aeef-77cd-90fa-b51b2ad07063','01a21673-ae61-7491-b3ff-d527f19e86c2','pressure','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21673-aef5-72df-8959-32508c2c95db','01a21673-ae61-7491-b3ff-d527f19e86c2','retina','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21673-af32-7678-b041-ecdc65bf6453','01a21673-ae81-7057-9047-05b107d9d9bc','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21673-af32-7678-b041-ecdffbafd29b','01a21673-ae81-7057-9047-05b107d9d9bc','silence','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
CREATE TABLE changed_patients (patient_id TEXT PRIMARY KEY) STRICT, WITHOUT ROWID;
INSERT INTO "changed_patients" VALUES('01a21673-ae61-7491-b3ff-d5264c202d0e');
INSERT INTO "changed_patients" VALUES('01a21673-ae81-7057-9047-05b03e7562cf');
CREATE TABLE closures (
            number INTEGER PRIMARY KEY, day TEXT NOT NULL CHECK (date(day, '+0 days') IS day),
            closed INTEGER NOT NULL CHECK (closed IN (0, 1)), why TEXT NOT NULL, recorded_by TEXT NOT NULL,
            recorded_at TEXT NOT NULL
        ) STRICT;
CREATE TABLE consents (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, at TEXT NOT NULL, what TEXT NOT NULL,
            given INTEGER NOT NULL CHECK (given IN (0, 1)), said_by TEXT NOT NULL, words TEXT NOT NULL,
            recorded_by TEXT NOT NULL
        ) STRICT;
INSERT INTO "consents" VALUES('01a21673-ae95-737a-b919-399acf5852d9','01a21673-ae61-7491-b3ff-d5264c202d0e','2027-03-02T14:00:00.000000Z','phone',1,'patient','','nurse:01a21673-ae4d-7330-b644-3f19164651e3');
CREATE TABLE devices (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, token_hash TEXT NOT NULL UNIQUE,
            used_by TEXT NOT NULL, enrolled_at TEXT NOT NULL, heard_at TEXT NOT NULL, revoked_at TEXT, revoked_by TEXT
        , carer_name TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "devices" VALUES('01a21673-aea9-717f-9cf8-ce81647e0582','01a21673-ae61-7491-b3ff-d5264c202d0e','c7711b0b5ab6a0f09ca32b55c8b147f08be61d5bf3c2de5ac96d94135366e712','patient','2027-03-02T20:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,NULL,'');
CREATE TABLE enrolments (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, code_hash TEXT NOT NULL UNIQUE,
            created_by TEXT NOT NULL, created_at TEXT NOT NULL, expires_at TEXT NOT NULL,
            used_at TEXT, wrong_tries INTEGER NOT NULL DEFAULT 0
        , carer_name TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "enrolments" VALUES('01a21673-ae64-77a5-9bfc-172a5434f87a','01a21673-ae61-7491-b3ff-d5264c202d0e','72c9b45d3d329fab3e622befc882b8f36b339ea8e03208986a98bebbffb0fd42','nurse:01a21673-ae4d-7330-b644-3f19164651e3','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z','2027-03-02T20:00:00.000000Z',0,'');
INSERT INTO "enrolments" VALUES('01a21673-ae84-73f0-8a4c-1b9aeb3869d5','01a21673-ae81-7057-9047-05b03e7562cf','4f1d6b8f1809b34dbfdf1f504269f2d5a7bd1a86b44c60531c1846c2387cff64','nurse:01a21673-ae4d-7330-b644-3f19164651e3','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z',NULL,0,'');
CREATE TABLE events (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", kind TEXT NOT NULL, at TEXT NOT NULL,
            body TEXT NOT NULL, author TEXT NOT NULL, device_id TEXT REFERENCES devices, sequence INTEGER,
            offset_minutes INTEGER, device_at TEXT, received_at TEXT NOT NULL, corrects TEXT REFERENCES events
        , reason TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000001','01a21673-ae61-7491-b3ff-d527f19e86c2','posture','2027-03-05T09:00:00.000000Z','{"from":"2027-03-03T08:00:00Z","position":"face-down","to":"2027-03-03T11:00:00Z"}','patient:01a21673-aea9-717f-9cf8-ce81647e0582','01a21673-aea9-717f-9cf8-ce81647e0582',1,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000002','01a21673-ae61-7491-b3ff-d527f19e86c2','symptoms','2027-03-05T09:00:00.000000Z','{"cannot_tell":[],"curtain":true,"pain":8,"vision":"worse","words":""}','patient:01a21673-aea9-717f-9cf8-ce81647e0582','01a21673-aea9-717f-9cf8-ce81647e0582',2,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21673-af10-73b0-840f-1e914159dcca','01a21673-ae61-7491-b3ff-d527f19e86c2','measures','2027-03-05T10:00:00.000000Z','{"acuity":"6/60","bubble_percent":85.0,"eye":"right","findings":[],"instrument":"applanation","iop_mmhg":41.0,"notes":""}','nurse:01a21673-ae4d-7330-b644-3f19164651e3',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21673-af11-75f3-abad-ca2e82de9b3d','01a21673-ae61-7491-b3ff-d527f19e86c2','seen','2027-03-05T10:00:00.000000Z','{"visit":"day 1","visit_id":"01a21673-ae63-7231-9480-39f11625f728"}','nurse:01a21673-ae4d-7330-b644-3f19164651e3',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21673-af31-7254-9156-d9f13bf89146','01a21673-ae81-7057-9047-05b107d9d9bc','measures','2027-03-05T10:00:00.000000Z','{"acuity":"HM","eye":"right","findings":[],"iop_mmhg":14.0,"notes":""}','nurse:01a21673-ae4d-7330-b644-3f19164651e3',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21673-af5b-7364-bee8-e106a0a0aad3','01a21673-ae61-7491-b3ff-d527f19e86c2','heard','2027-03-05T10:00:00.000000Z','{"words":"comes at once"}','nurse:01a21673-ae4d-7330-b644-3f19164651e3',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
CREATE TABLE eye_states (
            eye_id TEXT PRIMARY KEY, patient_id TEXT NOT NULL, version TEXT NOT NULL, look_at TEXT NOT NULL DEFAULT '',
            agent TEXT NOT NULL, operated_at TEXT NOT NULL, posture_from TEXT, posture_until TEXT,
            next_visit TEXT, next_earliest TEXT, next_target TEXT, next_latest TEXT,
            how_soon TEXT, worry TEXT NOT NULL, worry_since TEXT, worry_due_at TEXT, reason TEXT NOT NULL,
            last_heard TEXT, last_measures TEXT
        ) STRICT;
CREATE TABLE "eyes" (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, created_at TEXT NOT NULL, ended_at TEXT
        , side TEXT CHECK (side IN ('right', 'left')), followed_since TEXT, end_reason TEXT, joined_into TEXT REFERENCES eyes) STRICT;
INSERT INTO "eyes" VALUES('01a21673-ae61-7491-b3ff-d527f19e86c2','01a21673-ae61-7491-b3ff-d5264c202d0e','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a21673-ae61-7491-b3ff-d528b0873554','01a21673-ae61-7491-b3ff-d5264c202d0e','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
INSERT INTO "eyes" VALUES('01a21673-ae81-7057-9047-05b107d9d9bc','01a21673-ae81-7057-9047-05b03e7562cf','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a21673-ae81-7057-9047-05b2d46589e3','01a21673-ae81-7057-9047-05b03e7562cf','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
CREATE TABLE faults (
            what TEXT NOT NULL, about TEXT NOT NULL, words TEXT NOT NULL, first_at TEXT NOT NULL, last_at TEXT NOT NULL,
            times INTEGER NOT NULL DEFAULT 1, PRIMARY KEY (what, about)
        ) STRICT;
CREATE TABLE follow_ups (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, at TEXT NOT NULL,
            what TEXT NOT NULL CHECK (what IN ('begun', 'ended', 'resumed')), reason TEXT NOT NULL, words TEXT NOT NULL,
            recorded_by TEXT NOT NULL
        ) STRICT;
INSERT INTO "follow_ups" VALUES('01a21673-ae64-77a5-9bfc-1729f1bcf8b8','01a21673-ae61-7491-b3ff-d527f19e86c2','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a21673-ae4d-7330-b644-3f19164651e3');
INSERT INTO "follow_ups" VALUES('01a21673-ae84-73f0-8a4c-1b9960cec3b3','01a21673-ae81-7057-9047-05b107d9d9bc','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a21673-ae4d-7330-b644-3f19164651e3');
CREATE TABLE job_runs (job TEXT PRIMARY KEY, started_at TEXT NOT NULL, ended_at TEXT, result TEXT) STRICT;
CREATE TABLE listed_operations (
            id TEXT PRIMARY KEY, number TEXT NOT NULL, name TEXT NOT NULL, operated_on TEXT NOT NULL, eye TEXT NOT NULL,
            body TEXT NOT NULL, source TEXT NOT NULL, listed_by TEXT NOT NULL, listed_at TEXT NOT NULL,
            put_aside_at TEXT, put_aside_by TEXT, put_aside_why TEXT NOT NULL DEFAULT ''
        ) STRICT;
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
INSERT INTO "operation_records" VALUES('01a21673-ae63-7231-9480-39f04a677023','01a21673-ae63-7231-9480-39ef50c328bf','right','2027-03-02T14:00:00.000000Z','c2f6','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15.0},"breaks":[{"clock":11.0,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":95.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":16.0,"posture":{"days":5,"hours_a_day":12.0,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a21673-ae4d-7330-b644-3f19164651e3','2027-03-02T19:00:00.000000Z','');
INSERT INTO "operation_records" VALUES('01a21673-ae81-7057-9047-05b49ad40f99','01a21673-ae81-7057-9047-05b33cc2ad9a','right','2027-03-02T14:00:00.000000Z','silicone-oil','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15.0},"breaks":[{"clock":11.0,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":90.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":0.0,"posture":{"days":5,"hours_a_day":12.0,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a21673-ae4d-7330-b644-3f19164651e3','2027-03-02T19:00:00.000000Z','');
CREATE TABLE operations (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, created_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "operations" VALUES('01a21673-ae63-7231-9480-39ef50c328bf','01a21673-ae61-7491-b3ff-d527f19e86c2','2027-03-02T19:00:00.000000Z');
INSERT INTO "operations" VALUES('01a21673-ae81-7057-9047-05b33cc2ad9a','01a21673-ae81-7057-9047-05b107d9d9bc','2027-03-02T19:00:00.000000Z');
CREATE TABLE pages_opened (
            id TEXT PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, page TEXT NOT NULL, about TEXT NOT NULL
        ) STRICT;
CREATE TABLE patient_terms (term TEXT NOT NULL, patient_id TEXT NOT NULL REFERENCES patients) STRICT;
INSERT INTO "patient_terms" VALUES('09876','01a21673-ae61-7491-b3ff-d5264c202d0e');
INSERT INTO "patient_terms" VALUES('76','01a21673-ae61-7491-b3ff-d5264c202d0e');
INSERT INTO "patient_terms" VALUES('9','01a21673-ae61-7491-b3ff-d5264c202d0e');
INSERT INTO "patient_terms" VALUES('s','01a21673-ae61-7491-b3ff-d5264c202d0e');
INSERT INTO "patient_terms" VALUES('876','01a21673-ae61-7491-b3ff-d5264c202d0e');
INSERT INTO "patient_terms" VALUES('9876','01a21673-ae61-7491-b3ff-d5264c202d0e');
INSERT INTO "patient_terms" VALUES('person','01a21673-ae61-7491-b3ff-d5264c202d0e');
INSERT INTO "patient_terms" VALUES('1','01a21673-ae61-7491-b3ff-d5264c202d0e');
INSERT INTO "patient_terms" VALUES('erson','01a21673-ae61-7491-b3ff-d5264c202d0e');
INSERT INTO "patient_terms" VALUES('pia','01a21673-ae61-7491-b3ff-d5264c202d0e');
INSERT INTO "patient_terms" VALUES('s1','01a21673-ae61-7491-b3ff-d5264c202d0e');
INSERT INTO "patient_terms" VALUES('00','01a21673-ae61-7491-b3ff-d5264c202d0e');
INSERT INTO "patient_terms" VALUES('009876','01a21673-ae61-7491-b3ff-d5264c202d0e');
INSERT INTO "patient_terms" VALUES('rson','01a21673-ae61-7491-b3ff-d5264c202d0e');
INSERT INTO "patient_terms" VALUES('ia','01a21673-ae61-7491-b3ff-d5264c202d0e');
INSERT INTO "patient_terms" VALUES('on','01a21673-ae61-7491-b3ff-d5264c202d0e');
INSERT INTO "patient_terms" VALUES('son','01a21673-ae61-7491-b3ff-d5264c202d0e');
INSERT INTO "patient_terms" VALUES('other','01a21673-ae81-7057-9047-05b03e7562cf');
INSERT INTO "patient_terms" VALUES('09876','01a21673-ae81-7057-9047-05b03e7562cf');
INSERT INTO "patient_terms" VALUES('76','01a21673-ae81-7057-9047-05b03e7562cf');
INSERT INTO "patient_terms" VALUES('9','01a21673-ae81-7057-9047-05b03e7562cf');
INSERT INTO "patient_terms" VALUES('er','01a21673-ae81-7057-9047-05b03e7562cf');
INSERT INTO "patient_terms" VALUES('s','01a21673-ae81-7057-9047-05b03e7562cf');
INSERT INTO "patient_terms" VALUES('876','01a21673-ae81-7057-9047-05b03e7562cf');
INSERT INTO "patient_terms" VALUES('s2','01a21673-ae81-7057-9047-05b03e7562cf');
INSERT INTO "patient_terms" VALUES('9876','01a21673-ae81-7057-9047-05b03e7562cf');
INSERT INTO "patient_terms" VALUES('olaf','01a21673-ae81-7057-9047-05b03e7562cf');
INSERT INTO "patient_terms" VALUES('her','01a21673-ae81-7057-9047-05b03e7562cf');
INSERT INTO "patient_terms" VALUES('00','01a21673-ae81-7057-9047-05b03e7562cf');
INSERT INTO "patient_terms" VALUES('009876','01a21673-ae81-7057-9047-05b03e7562cf');
INSERT INTO "patient_terms" VALUES('af','01a21673-ae81-7057-9047-05b03e7562cf');
INSERT INTO "patient_terms" VALUES('laf','01a21673-ae81-7057-9047-05b03e7562cf');
INSERT INTO "patient_terms" VALUES('2','01a21673-ae81-7057-9047-05b03e7562cf');
INSERT INTO "patient_terms" VALUES('ther','01a21673-ae81-7057-9047-05b03e7562cf');
CREATE TABLE patients (
            id TEXT PRIMARY KEY, number TEXT NOT NULL UNIQUE, name TEXT NOT NULL, born_on TEXT NOT NULL,
            phone TEXT NOT NULL, language TEXT NOT NULL, created_at TEXT NOT NULL
        , joined_into TEXT REFERENCES patients, reached_by TEXT NOT NULL DEFAULT ''
            CHECK (reached_by IN ('', 'own-phone', 'carer-phone', 'no-app')), reached_since TEXT, carer_phone TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "patients" VALUES('01a21673-ae61-7491-b3ff-d5264c202d0e','S-1','Pia Person','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL,'',NULL,'');
INSERT INTO "patients" VALUES('01a21673-ae81-7057-9047-05b03e7562cf','S-2','Olaf Other','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL,'',NULL,'');
CREATE TABLE protocol_texts (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, text TEXT NOT NULL, fingerprint TEXT NOT NULL,
            saved_by TEXT NOT NULL, saved_at TEXT NOT NULL
        ) STRICT;
CREATE TABLE push_subscriptions (
            endpoint TEXT PRIMARY KEY, person TEXT NOT NULL, device_id TEXT REFERENCES devices, p256dh TEXT NOT NULL,
            auth TEXT NOT NULL, created_at TEXT NOT NULL, ended_at TEXT
        ) STRICT;
CREATE TABLE recovery_codes (
            staff_id TEXT NOT NULL REFERENCES staff, code_hash TEXT NOT NULL, used_at TEXT, PRIMARY KEY (staff_id, code_hash)
        ) STRICT;
CREATE TABLE refused_events (
            id TEXT NOT NULL, eye_id TEXT, device_id TEXT, text TEXT NOT NULL, reason TEXT NOT NULL,
            received_at TEXT NOT NULL, UNIQUE (id, device_id, text)
        ) STRICT;
INSERT INTO "refused_events" VALUES('0195e5a0-0000-7000-8000-000000000003','01a21673-ae61-7491-b3ff-d527f19e86c2','01a21673-aea9-717f-9cf8-ce81647e0582','{"id": "0195e5a0-0000-7000-8000-000000000003", "operation": "01a21673-ae61-7491-b3ff-d527f19e86c2", "kind": "symptoms", "at": "2027-03-05T09:00:00Z", "offset_minutes": 60, "sequence": 3, "by": "patient", "body": {"pain": 99}}','pain: Input should be less than or equal to 10','2027-03-05T10:00:00.000000Z');
CREATE TABLE sessions (
            id TEXT PRIMARY KEY, token_hash TEXT NOT NULL UNIQUE, staff_id TEXT NOT NULL REFERENCES staff,
            begun_at TEXT NOT NULL, seen_at TEXT NOT NULL, address TEXT NOT NULL, ended_at TEXT, end_reason TEXT
        ) STRICT;
CREATE TABLE settings (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
CREATE TABLE signatures (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, fingerprint TEXT NOT NULL, signed_by TEXT NOT NULL REFERENCES staff,
            signed_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "signatures" VALUES('01a21673-af7d-770a-a5c2-1390a3cac9a9','reviews','51499c130f73c9d0','01a21673-ae5c-743c-87b3-bfb99351ca99','2027-03-05T10:00:00.000000Z');
CREATE TABLE staff (
            id TEXT PRIMARY KEY, name TEXT NOT NULL, email TEXT NOT NULL UNIQUE, password_hash TEXT NOT NULL, created_at TEXT NOT NULL, left_at TEXT
        , role TEXT NOT NULL DEFAULT 'nurse'
            CHECK (role IN ('nurse', 'surgeon', 'administrator')), totp_secret TEXT, totp_last INTEGER) STRICT;
INSERT INTO "staff" VALUES('01a21673-ae4d-7330-b644-3f19164651e3','Nora Nurse','nurse@test.invalid','$argon2id$v=19$m=8,t=1,p=1$jVBBUmF9A/RK6DTcFsiJJA$dNkv7X0HsPTpWGjnPY0C8PDJnrvrjSww+QiWGH9vSvM','2027-03-02T14:00:00.000000Z',NULL,'nurse',NULL,NULL);
INSERT INTO "staff" VALUES('01a21673-ae5c-743c-87b3-bfb99351ca99','Sol Surgeon','surgeon@test.invalid','$argon2id$v=19$m=8,t=1,p=1$pFIW9da3tfxcPqq3ZhwoYA$Hgrq5AIi+xx2hUdvUFAMr0taxnmILWK87bIbAjZtfzk','2027-03-02T14:00:00.000000Z',NULL,'surgeon',NULL,NULL);
CREATE TABLE state_made (only INTEGER PRIMARY KEY CHECK (only = 1), how TEXT NOT NULL) STRICT;
CREATE TABLE tasks (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks,
            eye_id TEXT NOT NULL REFERENCES "eyes", kind TEXT NOT NULL, words TEXT NOT NULL, visit_id TEXT,
            owner TEXT REFERENCES staff, due_at TEXT NOT NULL, made_by TEXT NOT NULL REFERENCES staff, made_at TEXT NOT NULL,
            told_at TEXT, done_at TEXT, done_by TEXT REFERENCES staff, done_words TEXT NOT NULL DEFAULT '',
            given_up INTEGER NOT NULL DEFAULT 0
        , decision TEXT, theatre_on TEXT, theatre_list TEXT NOT NULL DEFAULT '') STRICT;
CREATE TABLE tries (what TEXT NOT NULL, key TEXT NOT NULL, at TEXT NOT NULL) STRICT;
CREATE TABLE visit_states (
            identity TEXT PRIMARY KEY, visit_id TEXT NOT NULL, eye_id TEXT NOT NULL, patient_id TEXT NOT NULL,
            target TEXT NOT NULL, latest TEXT NOT NULL, hour TEXT NOT NULL, urgency INTEGER NOT NULL, name TEXT NOT NULL,
            waited INTEGER NOT NULL, away INTEGER NOT NULL, seen_at TEXT, here_at TEXT, arrival TEXT NOT NULL
        ) STRICT;
CREATE TABLE visits (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", name TEXT NOT NULL,
            target TEXT NOT NULL, earliest TEXT NOT NULL, latest TEXT NOT NULL, reason TEXT NOT NULL,
            recorded_by TEXT NOT NULL, recorded_at TEXT NOT NULL, replaces TEXT REFERENCES visits,
            withdrawn INTEGER NOT NULL DEFAULT 0
        , identity TEXT NOT NULL DEFAULT '', starts TEXT
            CHECK (starts IS NULL OR (starts GLOB '[0-2][0-9]:[0-5][0-9]' AND starts < '24:00')), why TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "visits" VALUES('01a21673-ae63-7231-9480-39f11625f728','01a21673-ae61-7491-b3ff-d527f19e86c2','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a21673-ae4d-7330-b644-3f19164651e3','2027-03-02T19:00:00.000000Z',NULL,0,'01a21673-ae63-7231-9480-39f11625f728',NULL,'');
INSERT INTO "visits" VALUES('01a21673-ae63-7231-9480-39f2f215cbcb','01a21673-ae61-7491-b3ff-d527f19e86c2','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a21673-ae4d-7330-b644-3f19164651e3','2027-03-02T19:00:00.000000Z',NULL,0,'01a21673-ae63-7231-9480-39f2f215cbcb',NULL,'');
INSERT INTO "visits" VALUES('01a21673-ae84-73f0-8a4c-1b97086c144c','01a21673-ae81-7057-9047-05b107d9d9bc','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a21673-ae4d-7330-b644-3f19164651e3','2027-03-02T19:00:00.000000Z',NULL,0,'01a21673-ae84-73f0-8a4c-1b97086c144c',NULL,'');
INSERT INTO "visits" VALUES('01a21673-ae84-73f0-8a4c-1b9856617ab1','01a21673-ae81-7057-9047-05b107d9d9bc','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a21673-ae4d-7330-b644-3f19164651e3','2027-03-02T19:00:00.000000Z',NULL,0,'01a21673-ae84-73f0-8a4c-1b9856617ab1',NULL,'');
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
INSERT INTO "warnings" VALUES('01a21673-aeed-7108-a1cd-96245bc428af','01a21673-ae61-7491-b3ff-d527f19e86c2','01a21673-aeec-74e9-8882-291680b2270c','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21673-aeee-7371-9069-3dd930616ff0','01a21673-ae61-7491-b3ff-d527f19e86c2','01a21673-aeee-7371-9069-3dd71abf2308','posture-missed','posture','this-week','2027-03-03T23:00:00.000000Z',0.75,'{"date":"2027-03-03","hours":3.0,"target_hours":12.0}','{"share":0.5}','CP','Only 3 of 12 hours of posturing on 2027-03-03.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21673-aeee-7371-9069-3ddc1621455c','01a21673-ae61-7491-b3ff-d527f19e86c2','01a21673-aeee-7371-9069-3dda15631a55','silent-while-posturing','silence','this-week','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21673-aeee-7371-9069-3dde3d335656','01a21673-ae61-7491-b3ff-d527f19e86c2','01a21673-aeee-7371-9069-3dda15631a55','no-posture-entry','silence','this-week','2027-03-04T23:00:00.000000Z',1.0,'{"date":"2027-03-04"}','{}','CP','Nothing logged for posturing on 2027-03-04.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21673-aeee-7371-9069-3de133a5c8f3','01a21673-ae61-7491-b3ff-d527f19e86c2','01a21673-aeee-7371-9069-3ddf0733051c','infection-suspected','infection','now','2027-03-05T09:00:00.000000Z',30.0,'{"pain":8,"vision":"worse"}','{"count":2,"signs":["pain>=4","vision=worse","redness=worse","discharge"]}','BOSU','Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21673-aef4-7521-9de9-bc4f101dde82','01a21673-ae61-7491-b3ff-d527f19e86c2','01a21673-aeef-77cd-90fa-b51b2ad07063','severe-pain','pressure','now','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=7"]}','VRS','Severe pain (8 of 10): pressure and infection must be ruled out.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21673-aef5-72df-8959-325257779923','01a21673-ae61-7491-b3ff-d527f19e86c2','01a21673-aef5-72df-8959-32508c2c95db','curtain','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"curtain":true,"pain":8}','{"count":1,"signs":["curtain"]}','RD14','A curtain or shadow that does not move with the bubble: new detachment until shown otherwise.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21673-aef5-72df-8959-3254e2107a62','01a21673-ae61-7491-b3ff-d527f19e86c2','01a21673-aeef-77cd-90fa-b51b2ad07063','pain','pressure','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=5"]}','VRS','Pain of 8 of 10, beyond what simple painkillers usually hold.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21673-aef5-72df-8959-3256e544a08f','01a21673-ae61-7491-b3ff-d527f19e86c2','01a21673-aef5-72df-8959-32508c2c95db','vision-worse','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','Hol09','The patient says that the vision fell.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21673-aef5-72df-8959-3258fc45d838','01a21673-ae61-7491-b3ff-d527f19e86c2','01a21673-aef5-72df-8959-32508c2c95db','vision-said-worse','retina','this-week','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','Hol09','The patient said that the vision fell. Ask again, whatever the second look said.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21673-af13-77f1-924c-c6235c7d30cc','01a21673-ae61-7491-b3ff-d527f19e86c2','01a21673-aeef-77cd-90fa-b51b2ad07063','pressure-severe','pressure','now','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":40}','Bern12','Pressure 41 mmHg, at or above 40.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21673-af13-77f1-924c-c6257b277166','01a21673-ae61-7491-b3ff-d527f19e86c2','01a21673-aeef-77cd-90fa-b51b2ad07063','pressure-spike','pressure','today','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":30}','Bern12','Pressure 41 mmHg, at or above 30.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21673-af14-769c-9e2b-adfbf25ef731','01a21673-ae61-7491-b3ff-d527f19e86c2','01a21673-aeef-77cd-90fa-b51b2ad07063','pressure-raised','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":24}','NICE','Pressure 41 mmHg, at or above 24.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21673-af14-769c-9e2b-adfd0c696ef2','01a21673-ae61-7491-b3ff-d527f19e86c2','01a21673-aeef-77cd-90fa-b51b2ad07063','pressure-rise','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"baseline_mmhg":15.0,"instrument":"applanation","iop_mmhg":41.0,"pain":null,"risen_mmhg":26.0}','{"mmhg":24,"rise_mmhg":10}','LOH19','Pressure 41 mmHg, 26 above this eye’s own 15.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21673-af1c-7573-a9f5-fb946805fceb','01a21673-ae61-7491-b3ff-d527f19e86c2','01a21673-aeef-77cd-90fa-b51b2ad07063','pressure-rising','pressure','this-week','2027-03-05T10:00:00.000000Z',26.0,'{"instrument":"applanation","iop_mmhg":41.0,"moved_mmhg":26.0,"pain":null,"usual_mmhg":15.0}','{"by_mmhg":5,"direction":"up","mmhg":18}','SIO','Pressure 41 mmHg, 26 above what is usual for this eye (15).','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21673-af32-7678-b041-ecde69b6a7d6','01a21673-ae81-7057-9047-05b107d9d9bc','01a21673-af32-7678-b041-ecdc65bf6453','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21673-af32-7678-b041-ece1f02bfac4','01a21673-ae81-7057-9047-05b107d9d9bc','01a21673-af32-7678-b041-ecdffbafd29b','no-posture-entry','silence','this-week','2027-03-03T23:00:00.000000Z',1.0,'{"date":"2027-03-03"}','{}','CP','Nothing logged for posturing on 2027-03-03.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21673-af33-7390-bf0d-bb347784bc4d','01a21673-ae81-7057-9047-05b107d9d9bc','01a21673-af32-7678-b041-ecdffbafd29b','silent-while-posturing','silence','this-week','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
CREATE TABLE wish_states (
            event_id TEXT PRIMARY KEY, eye_id TEXT NOT NULL, patient_id TEXT NOT NULL, at TEXT NOT NULL, visit TEXT NOT NULL,
            identity TEXT, words TEXT NOT NULL
        ) STRICT;
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
CREATE INDEX eye_states_of_patient ON eye_states (patient_id);
CREATE INDEX eyes_to_look_at ON eye_states (look_at);
CREATE INDEX eyes_posturing ON eye_states (posture_until) WHERE posture_until IS NOT NULL;
CREATE INDEX visit_states_of_patient ON visit_states (patient_id);
CREATE INDEX visits_waited ON visit_states (target, hour, urgency, name, identity, latest, away, here_at) WHERE waited;
CREATE INDEX visits_here ON visit_states (here_at) WHERE waited AND here_at IS NOT NULL;
CREATE INDEX visits_seen ON visit_states (seen_at) WHERE seen_at IS NOT NULL;
CREATE INDEX visits_unseen ON visit_states (target) WHERE seen_at IS NULL;
CREATE INDEX wish_states_of_patient ON wish_states (patient_id);
CREATE INDEX wishes_in_order ON wish_states (at, event_id);
CREATE INDEX calls_in_order ON call_states (urgency, since, first, level, decided, patient_id);
CREATE INDEX calls_counted ON call_states (urgency, level, decided);
CREATE INDEX people_of_call ON call_people (patient_id);
CREATE INDEX events_off_time ON events (eye_id) WHERE NOT (at GLOB '[12][0-9][0-9][0-9]-*' AND at BETWEEN '1900' AND '2201');
CREATE INDEX records_off_time ON operation_records (operation_id) WHERE NOT (operated_at GLOB '[12][0-9][0-9][0-9]-*' AND operated_at BETWEEN '1900' AND '2201');
CREATE INDEX visits_off_time ON visits (eye_id) WHERE NOT ((target GLOB '[12][0-9][0-9][0-9]-*' AND target BETWEEN '1900' AND '2201') AND (earliest GLOB '[12][0-9][0-9][0-9]-*' AND earliest BETWEEN '1900' AND '2201') AND (latest GLOB '[12][0-9][0-9][0-9]-*' AND latest BETWEEN '1900' AND '2201'));
CREATE INDEX events_of_clinic ON events (at) WHERE kind IN ('seen', 'measures', 'did-not-come');
CREATE INDEX refused_by_time ON refused_events (received_at);
CREATE INDEX visits_untold ON visits_to_tell (made_at) WHERE told_at IS NULL;
CREATE INDEX callbacks_of_eye ON callbacks (eye_id, opened_at);
CREATE INDEX callbacks_moved_up ON callbacks (due_at) WHERE state != 'settled' AND level > 0;
CREATE INDEX callbacks_for_now ON callbacks (opened_at) WHERE state != 'settled' AND how_soon = 'now' AND level = 0;
CREATE INDEX callbacks_silent ON callbacks (opened_at) WHERE state != 'settled' AND worry = 'silence';
CREATE INDEX callbacks_settled ON callbacks (settled_at) WHERE settled_at IS NOT NULL;
CREATE INDEX tasks_open ON tasks (owner) WHERE done_at IS NULL;
CREATE INDEX steps_by_kind ON callback_steps (step, at);
CREATE INDEX eyes_followed ON eyes (patient_id) WHERE followed_since IS NOT NULL AND ended_at IS NULL;
CREATE TRIGGER visits_changed_insert AFTER INSERT ON visits BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER visits_changed_update AFTER UPDATE ON visits BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER visits_changed_delete AFTER DELETE ON visits BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; END;
CREATE TRIGGER events_changed_insert AFTER INSERT ON events BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER events_changed_update AFTER UPDATE ON events BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER events_changed_delete AFTER DELETE ON events BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; END;
CREATE TRIGGER warnings_changed_insert AFTER INSERT ON warnings BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER warnings_changed_update AFTER UPDATE ON warnings BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER warnings_changed_delete AFTER DELETE ON warnings BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; END;
CREATE TRIGGER follow_ups_changed_insert AFTER INSERT ON follow_ups BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER follow_ups_changed_update AFTER UPDATE ON follow_ups BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER follow_ups_changed_delete AFTER DELETE ON follow_ups BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; END;
CREATE TRIGGER callbacks_changed_insert AFTER INSERT ON callbacks BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER callbacks_changed_update AFTER UPDATE ON callbacks BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER callbacks_changed_delete AFTER DELETE ON callbacks BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; END;
CREATE TRIGGER tasks_changed_insert AFTER INSERT ON tasks BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER tasks_changed_update AFTER UPDATE ON tasks BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER tasks_changed_delete AFTER DELETE ON tasks BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; END;
CREATE TRIGGER operations_changed_insert AFTER INSERT ON operations BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER operations_changed_update AFTER UPDATE ON operations BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER operations_changed_delete AFTER DELETE ON operations BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; END;
CREATE TRIGGER operation_records_changed_insert AFTER INSERT ON operation_records BEGIN INSERT OR IGNORE INTO changed_patients SELECT e.patient_id FROM operations o JOIN eyes e ON e.id = o.eye_id WHERE o.id = NEW.operation_id; END;
CREATE TRIGGER operation_records_changed_update AFTER UPDATE ON operation_records BEGIN INSERT OR IGNORE INTO changed_patients SELECT e.patient_id FROM operations o JOIN eyes e ON e.id = o.eye_id WHERE o.id = OLD.operation_id; INSERT OR IGNORE INTO changed_patients SELECT e.patient_id FROM operations o JOIN eyes e ON e.id = o.eye_id WHERE o.id = NEW.operation_id; END;
CREATE TRIGGER operation_records_changed_delete AFTER DELETE ON operation_records BEGIN INSERT OR IGNORE INTO changed_patients SELECT e.patient_id FROM operations o JOIN eyes e ON e.id = o.eye_id WHERE o.id = OLD.operation_id; END;
CREATE TRIGGER warning_grounds_changed_insert AFTER INSERT ON warning_grounds BEGIN INSERT OR IGNORE INTO changed_patients SELECT e.patient_id FROM warnings w JOIN eyes e ON e.id = w.eye_id WHERE w.id = NEW.warning_id; END;
CREATE TRIGGER warning_grounds_changed_update AFTER UPDATE ON warning_grounds BEGIN INSERT OR IGNORE INTO changed_patients SELECT e.patient_id FROM warnings w JOIN eyes e ON e.id = w.eye_id WHERE w.id = OLD.warning_id; INSERT OR IGNORE INTO changed_patients SELECT e.patient_id FROM warnings w JOIN eyes e ON e.id = w.eye_id WHERE w.id = NEW.warning_id; END;
CREATE TRIGGER warning_grounds_changed_delete AFTER DELETE ON warning_grounds BEGIN INSERT OR IGNORE INTO changed_patients SELECT e.patient_id FROM warnings w JOIN eyes e ON e.id = w.eye_id WHERE w.id = OLD.warning_id; END;
CREATE TRIGGER patients_changed_insert AFTER INSERT ON patients BEGIN INSERT OR IGNORE INTO changed_patients SELECT NEW.id; END;
CREATE TRIGGER patients_changed_update AFTER UPDATE ON patients BEGIN INSERT OR IGNORE INTO changed_patients SELECT OLD.id; INSERT OR IGNORE INTO changed_patients SELECT NEW.id; END;
CREATE TRIGGER patients_changed_delete AFTER DELETE ON patients BEGIN INSERT OR IGNORE INTO changed_patients SELECT OLD.id; END;
CREATE TRIGGER eyes_changed_insert AFTER INSERT ON eyes BEGIN INSERT OR IGNORE INTO changed_patients SELECT NEW.patient_id; END;
CREATE TRIGGER eyes_changed_update AFTER UPDATE ON eyes BEGIN INSERT OR IGNORE INTO changed_patients SELECT OLD.patient_id; INSERT OR IGNORE INTO changed_patients SELECT NEW.patient_id; END;
CREATE TRIGGER eyes_changed_delete AFTER DELETE ON eyes BEGIN INSERT OR IGNORE INTO changed_patients SELECT OLD.patient_id; END;
CREATE TRIGGER protocol_texts_changed AFTER INSERT ON protocol_texts BEGIN UPDATE eye_states SET look_at = ''; END;
CREATE INDEX sessions_of_staff ON sessions (staff_id, ended_at);
CREATE INDEX pages_opened_by_time ON pages_opened (at);
CREATE INDEX pages_opened_about ON pages_opened (about, at);
CREATE TRIGGER pages_opened_keeps_update BEFORE UPDATE ON pages_opened BEGIN SELECT RAISE(ABORT, 'pages_opened is append-only: record a correction instead'); END;
CREATE TRIGGER pages_opened_keeps_delete BEFORE DELETE ON pages_opened BEGIN SELECT RAISE(ABORT, 'pages_opened is append-only: record a correction instead'); END;
CREATE INDEX listed_by_day ON listed_operations (operated_on);
CREATE INDEX consents_of_patient ON consents (patient_id, what, at);
CREATE TRIGGER consents_keeps_update BEFORE UPDATE ON consents BEGIN SELECT RAISE(ABORT, 'consents is append-only: record a correction instead'); END;
CREATE TRIGGER consents_keeps_delete BEFORE DELETE ON consents BEGIN SELECT RAISE(ABORT, 'consents is append-only: record a correction instead'); END;
CREATE INDEX tasks_for_theatre ON tasks (theatre_on, theatre_list) WHERE kind = 'theatre' AND NOT given_up;
COMMIT;
