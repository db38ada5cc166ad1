BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'followup','m001_people','2026-11-26 03:33:09.498348+00:00');
INSERT INTO "_sqlite_migrations" VALUES(2,'followup','m002_eyes','2026-11-26 03:33:09.523040+00:00');
INSERT INTO "_sqlite_migrations" VALUES(3,'followup','m003_worries','2026-11-26 03:33:09.543510+00:00');
INSERT INTO "_sqlite_migrations" VALUES(4,'followup','m004_audit','2026-11-26 03:33:09.548243+00:00');
INSERT INTO "_sqlite_migrations" VALUES(5,'followup','m005_messages','2026-11-26 03:33:09.550074+00:00');
INSERT INTO "_sqlite_migrations" VALUES(6,'followup','m006_repair','2026-11-26 03:33:09.550601+00:00');
INSERT INTO "_sqlite_migrations" VALUES(7,'followup','m007_tasks','2026-11-26 03:33:09.553446+00:00');
INSERT INTO "_sqlite_migrations" VALUES(8,'followup','m008_visit_identities','2026-11-26 03:33:09.554845+00:00');
INSERT INTO "_sqlite_migrations" VALUES(9,'followup','m009_watch','2026-11-26 03:33:09.557248+00:00');
INSERT INTO "_sqlite_migrations" VALUES(10,'followup','m011_bounds','2026-11-26 03:33:09.558154+00:00');
INSERT INTO "_sqlite_migrations" VALUES(11,'followup','m020_two_eyes','2026-11-26 03:33:09.589899+00:00');
INSERT INTO "_sqlite_migrations" VALUES(12,'followup','m021_grounds_of_warnings','2026-11-26 03:33:09.591735+00:00');
INSERT INTO "_sqlite_migrations" VALUES(13,'followup','m025_joined_by_index','2026-11-26 03:33:09.592582+00:00');
INSERT INTO "_sqlite_migrations" VALUES(14,'followup','m026_one_call','2026-11-26 03:33:09.595447+00:00');
INSERT INTO "_sqlite_migrations" VALUES(15,'followup','m027_book_of_visits','2026-11-26 03:33:09.597937+00:00');
INSERT INTO "_sqlite_migrations" VALUES(16,'followup','m028_current_state','2026-11-26 03:33:09.608449+00:00');
INSERT INTO "_sqlite_migrations" VALUES(17,'followup','m029_sessions','2026-11-26 03:33:09.667306+00:00');
INSERT INTO "_sqlite_migrations" VALUES(18,'followup','m030_sealed_facts','2026-11-26 03:33:09.694185+00:00');
INSERT INTO "_sqlite_migrations" VALUES(19,'followup','m032_rights','2026-11-26 03:33:09.701800+00:00');
CREATE TABLE audit (
            number INTEGER PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, action TEXT NOT NULL, subject TEXT NOT NULL,
            detail TEXT NOT NULL, previous TEXT NOT NULL, hash TEXT NOT NULL
        , facts TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "audit" VALUES(1,'2027-03-02T14:00:00.000000Z','command line','staff added','01a215ea-0bd9-7618-bcf6-dcca5bd44bb7','{"role":"nurse"}','0000000000000000000000000000000000000000000000000000000000000000','48573c7d0c21cab86c0310cff6292a79f452f43a69376e388dea01f028dcc99d','[["staff", "01a215ea-0bd9-7618-bcf6-dcca5bd44bb7", "d7e0b6fe4ff870131bf4b1c7357d432d7bc424de63aab4b721d32b61e0528ef8"]]');
INSERT INTO "audit" VALUES(2,'2027-03-02T14:00:00.000000Z','command line','staff added','01a215ea-0bfd-7566-a38e-f05bab61ea11','{"role":"surgeon"}','48573c7d0c21cab86c0310cff6292a79f452f43a69376e388dea01f028dcc99d','ff0cab8c6d0a62045710e63497495af2f8000d8d913718166c6aca229662ea79','[["staff", "01a215ea-0bfd-7566-a38e-f05bab61ea11", "59b049a54f0c77270018768d7549d080b7bba973340f1e76146b78a82eb43ed5"]]');
INSERT INTO "audit" VALUES(3,'2027-03-02T19:00:00.000000Z','nurse:01a215ea-0bd9-7618-bcf6-dcca5bd44bb7','enrolment code','01a215ea-0c17-73e8-ade7-30259690ff9d','null','ff0cab8c6d0a62045710e63497495af2f8000d8d913718166c6aca229662ea79','5f54e73392055cef953e29b992dbc99431f1cea284683c32d7197de8cd48bdcb','');
INSERT INTO "audit" VALUES(4,'2027-03-02T19:00:00.000000Z','nurse:01a215ea-0bd9-7618-bcf6-dcca5bd44bb7','discharge','01a215ea-0c19-7721-88bd-4ca8a33da141','{"agent":"c2f6","eye":"right"}','5f54e73392055cef953e29b992dbc99431f1cea284683c32d7197de8cd48bdcb','504f8abea6c044ffb86ef22f2b5ab84fc9f73a0acac8bc282c06d0bdcf47912e','[["patients", "01a215ea-0c17-73e8-ade7-30259690ff9d", "ad2a898a38131bd32eaff1c354c80b5577c4779bff1c2e26cea9d4e000cb8106"], ["eyes", "01a215ea-0c19-7721-88bd-4ca8a33da141", "f57ac7babc17c9db7adc6fe7ec9f49e896b2c128caae2e82ea023c2530588659"], ["eyes", "01a215ea-0c19-7721-88bd-4ca9505b102d", "4df30c45e920c08989d94dd23a2a290cfe8b8fff25e3a76aa5d217a324c2a536"], ["operations", "01a215ea-0c1b-7270-9cb9-4f425f92e7c3", "68a872d7122ffcd40386c272a1855bbeecdc0673189a4eec9b2d72cb69ce23e7"], ["operation_records", "01a215ea-0c1b-7270-9cb9-4f43604274e3", "774f3fdd941788892b68753cef20c7b55389675f2b8837659b17fbd6a94e0fcf"], ["visits", "01a215ea-0c1b-7270-9cb9-4f443bce103d", "f70402a12b33894bce2e291105536e4cd1567b117153f2e8c173a651fef12d22"], ["visits", "01a215ea-0c1c-7562-8c30-29032cdf8b48", "694a74db0d334e78e54893581227aa410e5445445be0650c3dee89a142edf8bd"], ["follow_ups", "01a215ea-0c1c-7562-8c30-2904d8007488", "f0d9d5005c50735ce719995f0ded821d26b4467f198dc477bf83b665e7c8c5df"]]');
INSERT INTO "audit" VALUES(5,'2027-03-02T19:00:00.000000Z','nurse:01a215ea-0bd9-7618-bcf6-dcca5bd44bb7','enrolment code','01a215ea-0c62-7436-b11d-897895bda14a','null','504f8abea6c044ffb86ef22f2b5ab84fc9f73a0acac8bc282c06d0bdcf47912e','e494b382d0c045c86f5165d5488512a1b4c408dd7d2833db26fb9f45b1cb90f0','');
INSERT INTO "audit" VALUES(6,'2027-03-02T19:00:00.000000Z','nurse:01a215ea-0bd9-7618-bcf6-dcca5bd44bb7','discharge','01a215ea-0c64-76f6-a1c3-9b8b1cec9bfd','{"agent":"silicone-oil","eye":"right"}','e494b382d0c045c86f5165d5488512a1b4c408dd7d2833db26fb9f45b1cb90f0','819194ea6966b06a9c283818a52cd2426c1032c3368f531694050ce616cef60f','[["patients", "01a215ea-0c62-7436-b11d-897895bda14a", "68b176c02510aeec8299a287e05d4ec4deea2318628b7571af5911b5770ca973"], ["eyes", "01a215ea-0c64-76f6-a1c3-9b8b1cec9bfd", "e3fe2b70f7504904f1b733f4c639dd091b867547a3423accef1a85cd82f90655"], ["eyes", "01a215ea-0c64-76f6-a1c3-9b8c30037f74", "14c244f733f431b41568a0e1a4238c0b4e81e865cc03280ca2c5ac7039ebb874"], ["operations", "01a215ea-0c65-7011-98cf-6ad29c0fc00c", "edc875dced67e668d1848227863cab4994d44671421aa665fff59ce4b344058a"], ["operation_records", "01a215ea-0c65-7011-98cf-6ad30f8cfdbe", "336185c25580dba09dec5f24fe0b195018d79ea26278ffb12ca1bc9692448763"], ["visits", "01a215ea-0c65-7011-98cf-6ad453abd86d", "133ab4275058db2bb4940e25a96026b3171c4fcfd2793b2c2a78271ddc15a239"], ["visits", "01a215ea-0c65-7011-98cf-6ad5f7aac890", "57d58576056d5c4903e8f42768a7453ad48a5fddffa556e7925a81c2638a05f2"], ["follow_ups", "01a215ea-0c65-7011-98cf-6ad693ef7944", "2617ea366c0cb44d94efd508eb3d672eb7080ad81a3069694c76fe0c2094b4b3"]]');
INSERT INTO "audit" VALUES(7,'2027-03-02T14:00:00.000000Z','nurse:01a215ea-0bd9-7618-bcf6-dcca5bd44bb7','consent given','01a215ea-0c17-73e8-ade7-30259690ff9d','{"said_by":"patient","what":"phone"}','819194ea6966b06a9c283818a52cd2426c1032c3368f531694050ce616cef60f','b96429a8240749fbdf61db273d4251476b7da5d0f292be6ae2e64a28a0235547','[["consents", "01a215ea-0c72-74df-910e-914f5e1ed0bd", "1c400a27a5e5baacbba0deb87ceffbbe78c5a955be108fc659d086efc355cad9"]]');
INSERT INTO "audit" VALUES(8,'2027-03-02T20:00:00.000000Z','patient:01a215ea-0c86-758b-81f2-22028775ef14','device enrolled','01a215ea-0c17-73e8-ade7-30259690ff9d','null','b96429a8240749fbdf61db273d4251476b7da5d0f292be6ae2e64a28a0235547','4299199d66f87a26cb247154116781621b9e332990a44a6ae3fddf4281c30082','[["devices", "01a215ea-0c86-758b-81f2-22028775ef14", "de4959d53096def385c4b009307eeb339122cbd0d08ccd8b2035bca97e9fdae9"]]');
INSERT INTO "audit" VALUES(9,'2027-03-05T10:00:00.000000Z','patient:01a215ea-0c86-758b-81f2-22028775ef14','event posture','01a215ea-0c19-7721-88bd-4ca8a33da141','{"id":"0195e5a0-0000-7000-8000-000000000001"}','4299199d66f87a26cb247154116781621b9e332990a44a6ae3fddf4281c30082','5e036478af9e912195079d0097005b4d66eb88d869a10a68ea13fb1081be305f','');
INSERT INTO "audit" VALUES(10,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215ea-0c19-7721-88bd-4ca8a33da141','{"how_soon":"today","rule":"missed-early-visit"}','5e036478af9e912195079d0097005b4d66eb88d869a10a68ea13fb1081be305f','203b7a060b885a270ed0b33a6961aff8c628ae17328fcd930d104aa3a8833b14','');
INSERT INTO "audit" VALUES(11,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215ea-0c19-7721-88bd-4ca8a33da141','{"how_soon":"this-week","rule":"posture-missed"}','203b7a060b885a270ed0b33a6961aff8c628ae17328fcd930d104aa3a8833b14','d8fd1b19d4eaa4ab6b97a78642c419d8fad77fb7cbbc55905a167953ca6f4fa8','');
INSERT INTO "audit" VALUES(12,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215ea-0c19-7721-88bd-4ca8a33da141','{"how_soon":"this-week","rule":"silent-while-posturing"}','d8fd1b19d4eaa4ab6b97a78642c419d8fad77fb7cbbc55905a167953ca6f4fa8','2aa37956cd036f1758efc64c5d01c74b0aa08a3cd3601032a687877ca22740ea','');
INSERT INTO "audit" VALUES(13,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215ea-0c19-7721-88bd-4ca8a33da141','{"how_soon":"this-week","rule":"no-posture-entry"}','2aa37956cd036f1758efc64c5d01c74b0aa08a3cd3601032a687877ca22740ea','5c9d9ce1b33adfe5ad49292da2d3c4d45dc233279b10db23f01314ad47f1ac02','[["events", "0195e5a0-0000-7000-8000-000000000001", "9968678e925674ae3448c15f71fb4d2bfa528ba6a92662d328e5f0af3afc8fa7"], ["callbacks", "01a215ea-0d0c-710b-b3b1-b075c9760bf9", "80cfd958d46386c967b562bd7347c335cc1380c481c19fbdf40f921a15117366"], ["callback_steps", "01a215ea-0d34-75c4-adb3-0fc99b225c97", "3591d2082c124342b89db8929fad7ede1e7bd3bbac42c0dfe1647d93ee1ef531"], ["warnings", "01a215ea-0d35-7775-921c-4048d5d44251", "09aaeb2b74611461623d2962a9a4e87552750dfb0789a6173a5517c6a29b24a7"], ["callbacks", "01a215ea-0d35-7775-921c-4049386cc0d5", "5a41ba6946e91011890a030c66df015ce718004d1c4f9180d507b0b1ad4dfa03"], ["callback_steps", "01a215ea-0d35-7775-921c-404adb52c57d", "d9a39ee3a331b09330ae9b40bac92b7fdfbe1a921b0f03a0d73fc7d7bb5cdef5"], ["warnings", "01a215ea-0d35-7775-921c-404bbd19d477", "a16ac74390183dfbb115424a61a9e927d9cb0768fae0e6e4968e40bb64d7cfe4"], ["callbacks", "01a215ea-0d35-7775-921c-404cbcc90c87", "8555e50cc0877d087813d8db2caf9cefd88c0e8ad590bd3b48995a1529993067"], ["callback_steps", "01a215ea-0d35-7775-921c-404d2c0f88d9", "f3f1b28f792fde8acf057815bd3f782e9915bee3cfe87f4b6000f6c85de0e108"], ["warnings", "01a215ea-0d35-7775-921c-404e9ab6ab96", "910de9bf02f6abb8a5de04ed427279a7018cc3e4265582cd3eb587e22af47587"], ["callback_steps", "01a215ea-0d36-7343-9531-c6417d707c76", "e0aebb69a4155dfeb29d2b907c06e31f67987185a134b75063a3a84525d92d77"], ["warnings", "01a215ea-0d36-7343-9531-c642e11b628f", "1722ba128d3c68ef95c4b559cfef825823c57fa35018a4f7af63b9f1ef44997f"]]');
INSERT INTO "audit" VALUES(14,'2027-03-05T10:00:00.000000Z','patient:01a215ea-0c86-758b-81f2-22028775ef14','event symptoms','01a215ea-0c19-7721-88bd-4ca8a33da141','{"id":"0195e5a0-0000-7000-8000-000000000002"}','5c9d9ce1b33adfe5ad49292da2d3c4d45dc233279b10db23f01314ad47f1ac02','f75fde6281db25d4ce3ff6ef570da09a9a685bb603a504375193ca3dc252ec52','');
INSERT INTO "audit" VALUES(15,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215ea-0c19-7721-88bd-4ca8a33da141','{"how_soon":"now","rule":"infection-suspected"}','f75fde6281db25d4ce3ff6ef570da09a9a685bb603a504375193ca3dc252ec52','bf0d44af2a7f41ac1b5a7836a16f8d645a6505cad49a2d6a78caddc9db83632e','');
INSERT INTO "audit" VALUES(16,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215ea-0c19-7721-88bd-4ca8a33da141','{"how_soon":"now","rule":"severe-pain"}','bf0d44af2a7f41ac1b5a7836a16f8d645a6505cad49a2d6a78caddc9db83632e','612daa22f337f64357c19dc1df5022eb8ab828e5fad431e466df543df8bba5a9','');
INSERT INTO "audit" VALUES(17,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215ea-0c19-7721-88bd-4ca8a33da141','{"how_soon":"today","rule":"curtain"}','612daa22f337f64357c19dc1df5022eb8ab828e5fad431e466df543df8bba5a9','37484ca869dea64a59af283545c2bffd0d27407bd6030c6709ca2c0a08fb76e8','');
INSERT INTO "audit" VALUES(18,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215ea-0c19-7721-88bd-4ca8a33da141','{"how_soon":"today","rule":"pain"}','37484ca869dea64a59af283545c2bffd0d27407bd6030c6709ca2c0a08fb76e8','8f41332b99d8f055ffbf87fc9d9ddce6a9001e97456a879caedec38d57298530','');
INSERT INTO "audit" VALUES(19,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215ea-0c19-7721-88bd-4ca8a33da141','{"how_soon":"today","rule":"vision-worse"}','8f41332b99d8f055ffbf87fc9d9ddce6a9001e97456a879caedec38d57298530','42edc62e8de6dc37705d7cb3f6d1664591c2d55f5d954fd75f4db7208dee2907','');
INSERT INTO "audit" VALUES(20,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215ea-0c19-7721-88bd-4ca8a33da141','{"how_soon":"this-week","rule":"vision-said-worse"}','42edc62e8de6dc37705d7cb3f6d1664591c2d55f5d954fd75f4db7208dee2907','acc2dc26cc4efee40e9e06a8089626068cdb401a7cdc26788123286eead29ccc','[["events", "0195e5a0-0000-7000-8000-000000000002", "2f96504a5e08e0c8e7efacca4b0804247482118f67a035eb229b60562d659b99"], ["callbacks", "01a215ea-0d79-749a-b94b-3549e88d2e03", "5bb2c29254f40e5f769b6beebc5e29d1100e9b197eb4ee677a803a389b4eba12"], ["callback_steps", "01a215ea-0d79-749a-b94b-354a99a8efc1", "43aff3806b352f0c266e13df3f37abab7852299a25cd165bc28eaa4808e32abe"], ["warnings", "01a215ea-0d79-749a-b94b-354b3117160d", "1f54bae51fd74e645fa188ec733366bc0bf4559fd489aca1e73739d6fe64e46a"], ["callbacks", "01a215ea-0d79-749a-b94b-354c0258d1f8", "51189cf703ef849d3468475c106f82f9729a0b94a20a52f24448665772814369"], ["callback_steps", "01a215ea-0d79-749a-b94b-354d14901a03", "72ddd5efb4c8efb1d5f12c4ddc2503f6a43bad50fc054dc714ec1190672c181b"], ["warnings", "01a215ea-0d79-749a-b94b-354efdad2432", "409257d0f89837a9928b9cbf60bcf1e0b3a463fc94988f4b97b245da36f68cb6"], ["callbacks", "01a215ea-0d79-749a-b94b-354f44bd89c8", "a9d1a94c09da613ad19df36b46ac7957e0c2636802c2f9fe6f7a3b23b0e5fe12"], ["callback_steps", "01a215ea-0d79-749a-b94b-3550db8f46cc", "aa1ecfac87f98697107058c5e869b79111dc9c1a674121579a2c0d3a3c4c98d4"], ["warnings", "01a215ea-0d79-749a-b94b-3551fb914d11", "bff5d40a93ea2a9938d9aa0dc344e03b8caec8433a5cb955d7e58abc197f6eef"], ["callback_steps", "01a215ea-0d79-749a-b94b-355266ba1221", "5b52c2e9f8c01974ba64276ca7d13ff389f4a320a12c5f581ceaf5750888b4e4"], ["warnings", "01a215ea-0d79-749a-b94b-3553c24b32aa", "140b64ae928c7bb6e856df8167638410322cf8f50e25cfece812fee531210e54"], ["callback_steps", "01a215ea-0d7a-74a3-8aa5-4d8119718fbb", "b313a054999b986a962ec062528e6282408749776610b7897edfe146969a9a2a"], ["warnings", "01a215ea-0d7a-74a3-8aa5-4d82b31920e6", "426243f5a8cdf92a44a987041ed07f5f5ea49c6826979b682dc227d235cbf2bf"], ["callback_steps", "01a215ea-0d7a-74a3-8aa5-4d83af6abda3", "f9592c02029c26bd3ba9aaebc433cb17f50051a793d8592ef109b1d20c93f583"], ["warnings", "01a215ea-0d7a-74a3-8aa5-4d84b2621f27", "3d563720d0603f8cb9bbf579aa58af810ee9f91dbad32084cda357a03b88a52d"]]');
INSERT INTO "audit" VALUES(21,'2026-11-26T03:33:10.161072Z','followup','recorded','refused_events','null','acc2dc26cc4efee40e9e06a8089626068cdb401a7cdc26788123286eead29ccc','f1a0b069a0faa0d123bbd68b4e3a8c08fa02b19bdf29f419505055f8a0407010','[["refused_events", "2984bb5383d7ff51492987dd0aaf998cc04e9408186b53a2455f94c74c617867", "618ee2e158ab58b6b5c85b604e468e89e0c67eec01cb7ac9c33fff1719f12095"]]');
INSERT INTO "audit" VALUES(22,'2027-03-05T10:00:00.000000Z','nurse:01a215ea-0bd9-7618-bcf6-dcca5bd44bb7','event measures','01a215ea-0c19-7721-88bd-4ca8a33da141','{"id":"01a215ea-0d9e-75c8-a702-35905c9ea11e"}','f1a0b069a0faa0d123bbd68b4e3a8c08fa02b19bdf29f419505055f8a0407010','6222d6426409f29ea3427608bd39d839a453e087e3ec338a361ea18a15948e37','');
INSERT INTO "audit" VALUES(23,'2027-03-05T10:00:00.000000Z','nurse:01a215ea-0bd9-7618-bcf6-dcca5bd44bb7','event seen','01a215ea-0c19-7721-88bd-4ca8a33da141','{"id":"01a215ea-0d9f-7429-8069-a607f835e888"}','6222d6426409f29ea3427608bd39d839a453e087e3ec338a361ea18a15948e37','bc8abda9fcb4f8410831e2089cb614bc2da451b69e868963fa74cc5888af4514','');
INSERT INTO "audit" VALUES(24,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215ea-0c19-7721-88bd-4ca8a33da141','{"how_soon":"now","rule":"pressure-severe"}','bc8abda9fcb4f8410831e2089cb614bc2da451b69e868963fa74cc5888af4514','352ceb0b9bc0d2129a10eeff48230e589353941fdb74b7f1be268b674f1d6b6a','');
INSERT INTO "audit" VALUES(25,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215ea-0c19-7721-88bd-4ca8a33da141','{"how_soon":"today","rule":"pressure-spike"}','352ceb0b9bc0d2129a10eeff48230e589353941fdb74b7f1be268b674f1d6b6a','458f9c94cb2b9aff81e45b666895e0a01cf19c0e72e26460677b0ca7f8d2edee','');
INSERT INTO "audit" VALUES(26,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215ea-0c19-7721-88bd-4ca8a33da141','{"how_soon":"this-week","rule":"pressure-raised"}','458f9c94cb2b9aff81e45b666895e0a01cf19c0e72e26460677b0ca7f8d2edee','ab42b8b88dce7decf1f84a05944d47f4082ecd56e43f2231b309606bd40978bf','');
INSERT INTO "audit" VALUES(27,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215ea-0c19-7721-88bd-4ca8a33da141','{"how_soon":"this-week","rule":"pressure-rise"}','ab42b8b88dce7decf1f84a05944d47f4082ecd56e43f2231b309606bd40978bf','76ca141de3df037e171d11cd6f1408b5c3ad67802092096eb7d16d7ce6c2f888','');
INSERT INTO "audit" VALUES(28,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215ea-0c19-7721-88bd-4ca8a33da141','{"how_soon":"this-week","rule":"pressure-rising"}','76ca141de3df037e171d11cd6f1408b5c3ad67802092096eb7d16d7ce6c2f888','56be4b6d9b254167782afa609414a3d5ea5cce7d959a4cd12249f61a9658ad99','[["events", "01a215ea-0d9e-75c8-a702-35905c9ea11e", "a1b85a940432848d405f7867d278ada8bcd6a03f7ae63eb87fce1dd1beabbb52"], ["events", "01a215ea-0d9f-7429-8069-a607f835e888", "3ee7536de72ef9b2bc187137209d809ce862c60724ee6c135dc1200685111ef3"], ["callback_steps", "01a215ea-0da3-72d1-9045-e2490f15356e", "27d09a61031da8d4d1f5c847d7cf8822d0e624b7114540c65aaa38e154162f25"], ["warnings", "01a215ea-0da3-72d1-9045-e24a6004f789", "7f9ff353f5f6ed791f087eae26525e261a3ee6c2a9d85d4f42ed2db9a853e781"], ["callback_steps", "01a215ea-0da3-72d1-9045-e24bedad32ea", "6ddb19b58749dd5ad287830abe62abe981aae1ea69c93a2621713aa1683479f7"], ["warnings", "01a215ea-0da3-72d1-9045-e24c7473956b", "ea7164330c5c712cc9543e59489a42612b6b079d08d56ac796e04226f454cf1c"], ["callback_steps", "01a215ea-0da3-72d1-9045-e24d3458985e", "be40e69180dd0c338e0f20479a71c4ad8b4ee53f22b7f51f4fd4310768dc44a6"], ["warnings", "01a215ea-0da3-72d1-9045-e24ee78d4fa0", "b726167ced599fc9b55e1cd1ed1ba6faa479bdf93292ac631a057f1101ffa921"], ["callback_steps", "01a215ea-0da4-7675-be0f-0d0bf6eae126", "e6f5323527881a1d301b4e0df91a81fbdd5904313930466bb91b01c426cc46ed"], ["warnings", "01a215ea-0da4-7675-be0f-0d0cb328d385", "f7aa7c9c8d11a0b1f33ada9b886da6a6b152b5c21363c0c843d63a31bbbbadab"], ["callback_steps", "01a215ea-0da8-745c-8ab1-201460b35458", "cc09304870b3c90d2cfa00992288d4702a10bf40dd4797cfbfddb4baa8247859"], ["warnings", "01a215ea-0da8-745c-8ab1-20155e7a4e72", "e97b74e96864ee54f68e1153329efbab9ee5a0c94b29d76e41ce42cc45504392"]]');
INSERT INTO "audit" VALUES(29,'2027-03-05T10:00:00.000000Z','nurse:01a215ea-0bd9-7618-bcf6-dcca5bd44bb7','event measures','01a215ea-0c64-76f6-a1c3-9b8b1cec9bfd','{"id":"01a215ea-0dad-717c-9a57-a010610929f9"}','56be4b6d9b254167782afa609414a3d5ea5cce7d959a4cd12249f61a9658ad99','4b13dbe92eef5a3e5258acd8c4c56a9a665d3568ef8f76e21d63b162eafc350b','');
INSERT INTO "audit" VALUES(30,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215ea-0c64-76f6-a1c3-9b8b1cec9bfd','{"how_soon":"today","rule":"missed-early-visit"}','4b13dbe92eef5a3e5258acd8c4c56a9a665d3568ef8f76e21d63b162eafc350b','0d5ff18b8f56f9662239f42e7d22ad02684e873149cbf1c981009ee137d1bf64','');
INSERT INTO "audit" VALUES(31,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215ea-0c64-76f6-a1c3-9b8b1cec9bfd','{"how_soon":"this-week","rule":"no-posture-entry"}','0d5ff18b8f56f9662239f42e7d22ad02684e873149cbf1c981009ee137d1bf64','8c46c6d78b4d474865d917d40fe7287035d53bff53e8b92e1bb0ff435c492c20','');
INSERT INTO "audit" VALUES(32,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215ea-0c64-76f6-a1c3-9b8b1cec9bfd','{"how_soon":"this-week","rule":"silent-while-posturing"}','8c46c6d78b4d474865d917d40fe7287035d53bff53e8b92e1bb0ff435c492c20','0ce06c40706658de00e2d100ea1301dd8c59adc7431f68821a607dbb05bfefad','[["events", "01a215ea-0dad-717c-9a57-a010610929f9", "c32a78e7799f8c83544d792587c4408ce337583e3998f178593af4f92830b2ba"], ["callbacks", "01a215ea-0daf-74d2-95a2-fe15c2101759", "88126d220956c11b3e318d76a9b40d5a0105e65dc9aa38a7949e1d5713001ad5"], ["callback_steps", "01a215ea-0daf-74d2-95a2-fe16fa3beb52", "f51739d7d9ba4e90c3088fb8e28d611128ca0bac0039b875f83e6a4fbe8faef3"], ["warnings", "01a215ea-0daf-74d2-95a2-fe175f2f75e2", "a672c15a854858b1a46367e40f11f9f073e6221fb2705764ea5d005af2388e6f"], ["callbacks", "01a215ea-0daf-74d2-95a2-fe1812bfa443", "f55eccd8191abd184f030759cff9c58453d687d9046e8a95a5d78d195e8d1497"], ["callback_steps", "01a215ea-0daf-74d2-95a2-fe19a8b92cce", "d8d6bae4e287da2fe04b3ace2235e322187bf312b0c9d150618520b20545dd03"], ["warnings", "01a215ea-0daf-74d2-95a2-fe1a401ecb59", "9b892cfeb726dec51568a2d6890bdf5096258f7766fc4aacdc22af8c8cc888d6"], ["callback_steps", "01a215ea-0daf-74d2-95a2-fe1b3cc69a64", "2fbb6b8eeebd1fc2538d3a4b6a69e639b12149aaf2307080bb14f3d3a3268517"], ["warnings", "01a215ea-0daf-74d2-95a2-fe1c3fe42614", "1ac59c953008e8872f90a0016611b7fb690ac05a0ca62fc5ff258ca5e2f03640"]]');
INSERT INTO "audit" VALUES(33,'2027-03-05T10:00:00.000000Z','nurse:01a215ea-0bd9-7618-bcf6-dcca5bd44bb7','callback claimed','01a215ea-0d79-749a-b94b-3549e88d2e03','null','0ce06c40706658de00e2d100ea1301dd8c59adc7431f68821a607dbb05bfefad','af9f8ac2418bfbc082544b6881b0a8b7f5b596b0db6be7ff57f8318c87c6a0b5','[["callbacks", "01a215ea-0d79-749a-b94b-3549e88d2e03", "003ba156d671685262816880e684ea0ab4697e3dfd0dc1d708401e472a401e81"], ["callback_steps", "01a215ea-0dc0-740c-bb88-cff3422142b3", "ca100b1aaadd04ba9a3b2e1a4cb58ef75fe44e1d3d31ba1a4972000ec209bf47"]]');
INSERT INTO "audit" VALUES(34,'2027-03-05T10:00:00.000000Z','nurse:01a215ea-0bd9-7618-bcf6-dcca5bd44bb7','callback attempt','01a215ea-0d79-749a-b94b-3549e88d2e03','{"reached":true}','af9f8ac2418bfbc082544b6881b0a8b7f5b596b0db6be7ff57f8318c87c6a0b5','559d8d87069dc8b130ee9c794f0a13f9f1ad6bd44b4e8e4e98d164fa61681bd2','[["events", "01a215ea-0dc5-71b5-8318-fb7e546b86c4", "efdafab7a69197e0f8f0186d4ef5300ed93da3ce1dce623a5213a238145d5e15"], ["callback_steps", "01a215ea-0dc5-71b5-8318-fb7fb8c008aa", "2f1af05447c7b692f8788309a3bc8fd477fc7bd6fe8c26c60eba46baa041d006"], ["callbacks", "01a215ea-0d79-749a-b94b-3549e88d2e03", "003ba156d671685262816880e684ea0ab4697e3dfd0dc1d708401e472a401e81"]]');
INSERT INTO "audit" VALUES(35,'2027-03-05T10:00:00.000000Z','nurse:01a215ea-0bd9-7618-bcf6-dcca5bd44bb7','callback settled','01a215ea-0d79-749a-b94b-3549e88d2e03','{"outcome":"advice"}','559d8d87069dc8b130ee9c794f0a13f9f1ad6bd44b4e8e4e98d164fa61681bd2','eefad23562edf9948bea368c52c1829fd9a861edeb3e4a2162e93ff521165a70','[["callbacks", "01a215ea-0d79-749a-b94b-3549e88d2e03", "49dbe8b01535e9b1e774a919d0e4ea18d55fd8195c2cf4efe564736097a43701"], ["callback_steps", "01a215ea-0dd1-71c9-97f2-1edd412eaab7", "4a7f3b9ba20ba0bd502acc066812c1bbe0156016baddcab808fc3f87cbd3f32f"]]');
INSERT INTO "audit" VALUES(36,'2027-03-05T10:00:00.000000Z','surgeon:01a215ea-0bfd-7566-a38e-f05bab61ea11','protocol signed','reviews','{"fingerprint":"f544271cc2c2f9b1"}','eefad23562edf9948bea368c52c1829fd9a861edeb3e4a2162e93ff521165a70','0ef60aceb7093b4f604d960e927f8dbb10c580c1f91bc13c14613ee20b09ba79','[["signatures", "01a215ea-0dd5-77d4-8bad-3b7b6769cf18", "2db50bc4d7ad12cad24a3623134f730660cc4e87b712a03ebaa6ef3a68e6824a"]]');
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
INSERT INTO "callback_steps" VALUES('01a215ea-0d34-75c4-adb3-0fc99b225c97','01a215ea-0d0c-710b-b3b1-b075c9760bf9','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a215ea-0d35-7775-921c-404adb52c57d','01a215ea-0d35-7775-921c-4049386cc0d5','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"posture-missed","words":"Only 3 of 12 hours of posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a215ea-0d35-7775-921c-404d2c0f88d9','01a215ea-0d35-7775-921c-404cbcc90c87','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a215ea-0d36-7343-9531-c6417d707c76','01a215ea-0d35-7775-921c-404cbcc90c87','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-04."}');
INSERT INTO "callback_steps" VALUES('01a215ea-0d79-749a-b94b-354a99a8efc1','01a215ea-0d79-749a-b94b-3549e88d2e03','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"infection-suspected","words":"Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five."}');
INSERT INTO "callback_steps" VALUES('01a215ea-0d79-749a-b94b-354d14901a03','01a215ea-0d79-749a-b94b-354c0258d1f8','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"severe-pain","words":"Severe pain (8 of 10): pressure and infection must be ruled out."}');
INSERT INTO "callback_steps" VALUES('01a215ea-0d79-749a-b94b-3550db8f46cc','01a215ea-0d79-749a-b94b-354f44bd89c8','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"curtain","words":"A curtain or shadow that does not move with the bubble: new detachment until shown otherwise."}');
INSERT INTO "callback_steps" VALUES('01a215ea-0d79-749a-b94b-355266ba1221','01a215ea-0d79-749a-b94b-354c0258d1f8','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pain","words":"Pain of 8 of 10, beyond what simple painkillers usually hold."}');
INSERT INTO "callback_steps" VALUES('01a215ea-0d7a-74a3-8aa5-4d8119718fbb','01a215ea-0d79-749a-b94b-354f44bd89c8','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"vision-worse","words":"The patient says that the vision fell."}');
INSERT INTO "callback_steps" VALUES('01a215ea-0d7a-74a3-8aa5-4d83af6abda3','01a215ea-0d79-749a-b94b-354f44bd89c8','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"vision-said-worse","words":"The patient said that the vision fell. Ask again, whatever the second look said."}');
INSERT INTO "callback_steps" VALUES('01a215ea-0da3-72d1-9045-e2490f15356e','01a215ea-0d79-749a-b94b-354c0258d1f8','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"now","rule":"pressure-severe","words":"Pressure 41 mmHg, at or above 40."}');
INSERT INTO "callback_steps" VALUES('01a215ea-0da3-72d1-9045-e24bedad32ea','01a215ea-0d79-749a-b94b-354c0258d1f8','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pressure-spike","words":"Pressure 41 mmHg, at or above 30."}');
INSERT INTO "callback_steps" VALUES('01a215ea-0da3-72d1-9045-e24d3458985e','01a215ea-0d79-749a-b94b-354c0258d1f8','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-raised","words":"Pressure 41 mmHg, at or above 24."}');
INSERT INTO "callback_steps" VALUES('01a215ea-0da4-7675-be0f-0d0bf6eae126','01a215ea-0d79-749a-b94b-354c0258d1f8','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rise","words":"Pressure 41 mmHg, 26 above this eye’s own 15."}');
INSERT INTO "callback_steps" VALUES('01a215ea-0da8-745c-8ab1-201460b35458','01a215ea-0d79-749a-b94b-354c0258d1f8','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rising","words":"Pressure 41 mmHg, 26 above what is usual for this eye (15)."}');
INSERT INTO "callback_steps" VALUES('01a215ea-0daf-74d2-95a2-fe16fa3beb52','01a215ea-0daf-74d2-95a2-fe15c2101759','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a215ea-0daf-74d2-95a2-fe19a8b92cce','01a215ea-0daf-74d2-95a2-fe1812bfa443','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a215ea-0daf-74d2-95a2-fe1b3cc69a64','01a215ea-0daf-74d2-95a2-fe1812bfa443','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a215ea-0dc0-740c-bb88-cff3422142b3','01a215ea-0d79-749a-b94b-3549e88d2e03','2027-03-05T10:00:00.000000Z','nurse:01a215ea-0bd9-7618-bcf6-dcca5bd44bb7','claimed','{"by":"Nora Nurse"}');
INSERT INTO "callback_steps" VALUES('01a215ea-0dc5-71b5-8318-fb7fb8c008aa','01a215ea-0d79-749a-b94b-3549e88d2e03','2027-03-05T10:00:00.000000Z','nurse:01a215ea-0bd9-7618-bcf6-dcca5bd44bb7','reached','{"by":"Nora Nurse","next_try":null,"spoke_to":"patient","words":"comes at once"}');
INSERT INTO "callback_steps" VALUES('01a215ea-0dd1-71c9-97f2-1edd412eaab7','01a215ea-0d79-749a-b94b-3549e88d2e03','2027-03-05T10:00:00.000000Z','nurse:01a215ea-0bd9-7618-bcf6-dcca5bd44bb7','settled','{"by":"Nora Nurse","outcome":"advice","words":"comes at two"}');
CREATE TABLE callbacks (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", worry TEXT NOT NULL,
            how_soon TEXT NOT NULL CHECK (how_soon IN ('now', 'today', 'this-week')),
            opened_at TEXT NOT NULL, due_at TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('waiting', 'claimed', 'settled')),
            claimed_by TEXT REFERENCES staff, claimed_at TEXT, settled_at TEXT, outcome TEXT,
            level INTEGER NOT NULL DEFAULT 0
        , settled_by TEXT REFERENCES staff, next_try_at TEXT, moved_up INTEGER NOT NULL DEFAULT 0) STRICT;
INSERT INTO "callbacks" VALUES('01a215ea-0d0c-710b-b3b1-b075c9760bf9','01a215ea-0c19-7721-88bd-4ca8a33da141','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a215ea-0d35-7775-921c-4049386cc0d5','01a215ea-0c19-7721-88bd-4ca8a33da141','posture','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a215ea-0d35-7775-921c-404cbcc90c87','01a215ea-0c19-7721-88bd-4ca8a33da141','silence','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a215ea-0d79-749a-b94b-3549e88d2e03','01a215ea-0c19-7721-88bd-4ca8a33da141','infection','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','settled','01a215ea-0bd9-7618-bcf6-dcca5bd44bb7','2027-03-05T10:00:00.000000Z','2027-03-05T10:00:00.000000Z','advice',0,'01a215ea-0bd9-7618-bcf6-dcca5bd44bb7',NULL,0);
INSERT INTO "callbacks" VALUES('01a215ea-0d79-749a-b94b-354c0258d1f8','01a215ea-0c19-7721-88bd-4ca8a33da141','pressure','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a215ea-0d79-749a-b94b-354f44bd89c8','01a215ea-0c19-7721-88bd-4ca8a33da141','retina','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a215ea-0daf-74d2-95a2-fe15c2101759','01a215ea-0c64-76f6-a1c3-9b8b1cec9bfd','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a215ea-0daf-74d2-95a2-fe1812bfa443','01a215ea-0c64-76f6-a1c3-9b8b1cec9bfd','silence','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
CREATE TABLE changed_patients (patient_id TEXT PRIMARY KEY) STRICT, WITHOUT ROWID;
INSERT INTO "changed_patients" VALUES('01a215ea-0c17-73e8-ade7-30259690ff9d');
INSERT INTO "changed_patients" VALUES('01a215ea-0c62-7436-b11d-897895bda14a');
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
INSERT INTO "consents" VALUES('01a215ea-0c72-74df-910e-914f5e1ed0bd','01a215ea-0c17-73e8-ade7-30259690ff9d','2027-03-02T14:00:00.000000Z','phone',1,'patient','','nurse:01a215ea-0bd9-7618-bcf6-dcca5bd44bb7');
CREATE TABLE devices (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, token_hash TEXT NOT NULL UNIQUE,
            used_by TEXT NOT NULL, enrolled_at TEXT NOT NULL, heard_at TEXT NOT NULL, revoked_at TEXT, revoked_by TEXT
        ) STRICT;
INSERT INTO "devices" VALUES('01a215ea-0c86-758b-81f2-22028775ef14','01a215ea-0c17-73e8-ade7-30259690ff9d','a730508e3fe0a49c985a2f8cb5a6c116694dab5c146e1d827d639e13192ecae3','patient','2027-03-02T20:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,NULL);
CREATE TABLE enrolments (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, code_hash TEXT NOT NULL UNIQUE,
            created_by TEXT NOT NULL, created_at TEXT NOT NULL, expires_at TEXT NOT NULL,
            used_at TEXT, wrong_tries INTEGER NOT NULL DEFAULT 0
        ) STRICT;
INSERT INTO "enrolments" VALUES('01a215ea-0c45-7523-82e4-19af8a403103','01a215ea-0c17-73e8-ade7-30259690ff9d','1e7108d9ffeef181b4a73d22a55a8ca5b19435e602c904af3567650a16865f35','nurse:01a215ea-0bd9-7618-bcf6-dcca5bd44bb7','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z','2027-03-02T20:00:00.000000Z',0);
INSERT INTO "enrolments" VALUES('01a215ea-0c65-7011-98cf-6ad7e9c769ac','01a215ea-0c62-7436-b11d-897895bda14a','4f30bcbad6f7b279599cf9a19ac3ad6500c36cfd62ce533c05f6e95b1446efa7','nurse:01a215ea-0bd9-7618-bcf6-dcca5bd44bb7','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z',NULL,0);
CREATE TABLE events (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", kind TEXT NOT NULL, at TEXT NOT NULL,
            body TEXT NOT NULL, author TEXT NOT NULL, device_id TEXT REFERENCES devices, sequence INTEGER,
            offset_minutes INTEGER, device_at TEXT, received_at TEXT NOT NULL, corrects TEXT REFERENCES events
        , reason TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000001','01a215ea-0c19-7721-88bd-4ca8a33da141','posture','2027-03-05T09:00:00.000000Z','{"from":"2027-03-03T08:00:00Z","position":"face-down","to":"2027-03-03T11:00:00Z"}','patient:01a215ea-0c86-758b-81f2-22028775ef14','01a215ea-0c86-758b-81f2-22028775ef14',1,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000002','01a215ea-0c19-7721-88bd-4ca8a33da141','symptoms','2027-03-05T09:00:00.000000Z','{"cannot_tell":[],"curtain":true,"pain":8,"vision":"worse","words":""}','patient:01a215ea-0c86-758b-81f2-22028775ef14','01a215ea-0c86-758b-81f2-22028775ef14',2,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a215ea-0d9e-75c8-a702-35905c9ea11e','01a215ea-0c19-7721-88bd-4ca8a33da141','measures','2027-03-05T10:00:00.000000Z','{"acuity":"6/60","bubble_percent":85.0,"eye":"right","findings":[],"instrument":"applanation","iop_mmhg":41.0,"notes":""}','nurse:01a215ea-0bd9-7618-bcf6-dcca5bd44bb7',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a215ea-0d9f-7429-8069-a607f835e888','01a215ea-0c19-7721-88bd-4ca8a33da141','seen','2027-03-05T10:00:00.000000Z','{"visit":"day 1","visit_id":"01a215ea-0c1b-7270-9cb9-4f443bce103d"}','nurse:01a215ea-0bd9-7618-bcf6-dcca5bd44bb7',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a215ea-0dad-717c-9a57-a010610929f9','01a215ea-0c64-76f6-a1c3-9b8b1cec9bfd','measures','2027-03-05T10:00:00.000000Z','{"acuity":"HM","eye":"right","findings":[],"iop_mmhg":14.0,"notes":""}','nurse:01a215ea-0bd9-7618-bcf6-dcca5bd44bb7',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a215ea-0dc5-71b5-8318-fb7e546b86c4','01a215ea-0c19-7721-88bd-4ca8a33da141','heard','2027-03-05T10:00:00.000000Z','{"words":"comes at once"}','nurse:01a215ea-0bd9-7618-bcf6-dcca5bd44bb7',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
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
INSERT INTO "eyes" VALUES('01a215ea-0c19-7721-88bd-4ca8a33da141','01a215ea-0c17-73e8-ade7-30259690ff9d','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a215ea-0c19-7721-88bd-4ca9505b102d','01a215ea-0c17-73e8-ade7-30259690ff9d','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
INSERT INTO "eyes" VALUES('01a215ea-0c64-76f6-a1c3-9b8b1cec9bfd','01a215ea-0c62-7436-b11d-897895bda14a','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a215ea-0c64-76f6-a1c3-9b8c30037f74','01a215ea-0c62-7436-b11d-897895bda14a','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
CREATE TABLE faults (
            what TEXT NOT NULL, about TEXT NOT NULL, words TEXT NOT NULL, first_at TEXT NOT NULL, last_at TEXT NOT NULL,
            times INTEGER NOT NULL DEFAULT 1, PRIMARY KEY (what, about)
        ) STRICT;
CREATE TABLE follow_ups (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, at TEXT NOT NULL,
            what TEXT NOT NULL CHECK (what IN ('begun', 'ended', 'resumed')), reason TEXT NOT NULL, words TEXT NOT NULL,
            recorded_by TEXT NOT NULL
        ) STRICT;
INSERT INTO "follow_ups" VALUES('01a215ea-0c1c-7562-8c30-2904d8007488','01a215ea-0c19-7721-88bd-4ca8a33da141','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a215ea-0bd9-7618-bcf6-dcca5bd44bb7');
INSERT INTO "follow_ups" VALUES('01a215ea-0c65-7011-98cf-6ad693ef7944','01a215ea-0c64-76f6-a1c3-9b8b1cec9bfd','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a215ea-0bd9-7618-bcf6-dcca5bd44bb7');
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
INSERT INTO "operation_records" VALUES('01a215ea-0c1b-7270-9cb9-4f43604274e3','01a215ea-0c1b-7270-9cb9-4f425f92e7c3','right','2027-03-02T14:00:00.000000Z','c2f6','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15.0},"breaks":[{"clock":11.0,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":95.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":16.0,"posture":{"days":5,"hours_a_day":12.0,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a215ea-0bd9-7618-bcf6-dcca5bd44bb7','2027-03-02T19:00:00.000000Z','');
INSERT INTO "operation_records" VALUES('01a215ea-0c65-7011-98cf-6ad30f8cfdbe','01a215ea-0c65-7011-98cf-6ad29c0fc00c','right','2027-03-02T14:00:00.000000Z','silicone-oil','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15.0},"breaks":[{"clock":11.0,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":90.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":0.0,"posture":{"days":5,"hours_a_day":12.0,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a215ea-0bd9-7618-bcf6-dcca5bd44bb7','2027-03-02T19:00:00.000000Z','');
CREATE TABLE operations (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, created_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "operations" VALUES('01a215ea-0c1b-7270-9cb9-4f425f92e7c3','01a215ea-0c19-7721-88bd-4ca8a33da141','2027-03-02T19:00:00.000000Z');
INSERT INTO "operations" VALUES('01a215ea-0c65-7011-98cf-6ad29c0fc00c','01a215ea-0c64-76f6-a1c3-9b8b1cec9bfd','2027-03-02T19:00:00.000000Z');
CREATE TABLE pages_opened (
            id TEXT PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, page TEXT NOT NULL, about TEXT NOT NULL
        ) STRICT;
CREATE TABLE patient_terms (term TEXT NOT NULL, patient_id TEXT NOT NULL REFERENCES patients) STRICT;
INSERT INTO "patient_terms" VALUES('876','01a215ea-0c17-73e8-ade7-30259690ff9d');
INSERT INTO "patient_terms" VALUES('09876','01a215ea-0c17-73e8-ade7-30259690ff9d');
INSERT INTO "patient_terms" VALUES('s','01a215ea-0c17-73e8-ade7-30259690ff9d');
INSERT INTO "patient_terms" VALUES('76','01a215ea-0c17-73e8-ade7-30259690ff9d');
INSERT INTO "patient_terms" VALUES('pia','01a215ea-0c17-73e8-ade7-30259690ff9d');
INSERT INTO "patient_terms" VALUES('ia','01a215ea-0c17-73e8-ade7-30259690ff9d');
INSERT INTO "patient_terms" VALUES('00','01a215ea-0c17-73e8-ade7-30259690ff9d');
INSERT INTO "patient_terms" VALUES('person','01a215ea-0c17-73e8-ade7-30259690ff9d');
INSERT INTO "patient_terms" VALUES('on','01a215ea-0c17-73e8-ade7-30259690ff9d');
INSERT INTO "patient_terms" VALUES('erson','01a215ea-0c17-73e8-ade7-30259690ff9d');
INSERT INTO "patient_terms" VALUES('9876','01a215ea-0c17-73e8-ade7-30259690ff9d');
INSERT INTO "patient_terms" VALUES('009876','01a215ea-0c17-73e8-ade7-30259690ff9d');
INSERT INTO "patient_terms" VALUES('son','01a215ea-0c17-73e8-ade7-30259690ff9d');
INSERT INTO "patient_terms" VALUES('s1','01a215ea-0c17-73e8-ade7-30259690ff9d');
INSERT INTO "patient_terms" VALUES('1','01a215ea-0c17-73e8-ade7-30259690ff9d');
INSERT INTO "patient_terms" VALUES('9','01a215ea-0c17-73e8-ade7-30259690ff9d');
INSERT INTO "patient_terms" VALUES('rson','01a215ea-0c17-73e8-ade7-30259690ff9d');
INSERT INTO "patient_terms" VALUES('876','01a215ea-0c62-7436-b11d-897895bda14a');
INSERT INTO "patient_terms" VALUES('s2','01a215ea-0c62-7436-b11d-897895bda14a');
INSERT INTO "patient_terms" VALUES('76','01a215ea-0c62-7436-b11d-897895bda14a');
INSERT INTO "patient_terms" VALUES('olaf','01a215ea-0c62-7436-b11d-897895bda14a');
INSERT INTO "patient_terms" VALUES('s','01a215ea-0c62-7436-b11d-897895bda14a');
INSERT INTO "patient_terms" VALUES('09876','01a215ea-0c62-7436-b11d-897895bda14a');
INSERT INTO "patient_terms" VALUES('00','01a215ea-0c62-7436-b11d-897895bda14a');
INSERT INTO "patient_terms" VALUES('ther','01a215ea-0c62-7436-b11d-897895bda14a');
INSERT INTO "patient_terms" VALUES('her','01a215ea-0c62-7436-b11d-897895bda14a');
INSERT INTO "patient_terms" VALUES('er','01a215ea-0c62-7436-b11d-897895bda14a');
INSERT INTO "patient_terms" VALUES('9876','01a215ea-0c62-7436-b11d-897895bda14a');
INSERT INTO "patient_terms" VALUES('009876','01a215ea-0c62-7436-b11d-897895bda14a');
INSERT INTO "patient_terms" VALUES('af','01a215ea-0c62-7436-b11d-897895bda14a');
INSERT INTO "patient_terms" VALUES('other','01a215ea-0c62-7436-b11d-897895bda14a');
INSERT INTO "patient_terms" VALUES('2','01a215ea-0c62-7436-b11d-897895bda14a');
INSERT INTO "patient_terms" VALUES('9','01a215ea-0c62-7436-b11d-897895bda14a');
INSERT INTO "patient_terms" VALUES('laf','01a215ea-0c62-7436-b11d-897895bda14a');
CREATE TABLE patients (
            id TEXT PRIMARY KEY, number TEXT NOT NULL UNIQUE, name TEXT NOT NULL, born_on TEXT NOT NULL,
            phone TEXT NOT NULL, language TEXT NOT NULL, created_at TEXT NOT NULL
        , joined_into TEXT REFERENCES patients, reached_by TEXT NOT NULL DEFAULT ''
            CHECK (reached_by IN ('', 'own-phone', 'carer-phone', 'no-app')), reached_since TEXT, carer_phone TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "patients" VALUES('01a215ea-0c17-73e8-ade7-30259690ff9d','S-1','Pia Person','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL,'',NULL,'');
INSERT INTO "patients" VALUES('01a215ea-0c62-7436-b11d-897895bda14a','S-2','Olaf Other','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL,'',NULL,'');
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
INSERT INTO "refused_events" VALUES('0195e5a0-0000-7000-8000-000000000003','01a215ea-0c19-7721-88bd-4ca8a33da141','01a215ea-0c86-758b-81f2-22028775ef14','{"id": "0195e5a0-0000-7000-8000-000000000003", "operation": "01a215ea-0c19-7721-88bd-4ca8a33da141", "kind": "symptoms", "at": "2027-03-05T09:00:00Z", "offset_minutes": 60, "sequence": 3, "by": "patient", "body": {"pain": 99}}','pain: Input should be less than or equal to 10','2027-03-05T10:00:00.000000Z');
CREATE TABLE sessions (
            id TEXT PRIMARY KEY, token_hash TEXT NOT NULL UNIQUE, staff_id TEXT NOT NULL REFERENCES staff,
            begun_at TEXT NOT NULL, seen_at TEXT NOT NULL, address TEXT NOT NULL, ended_at TEXT, end_reason TEXT
        ) STRICT;
CREATE TABLE settings (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
CREATE TABLE signatures (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, fingerprint TEXT NOT NULL, signed_by TEXT NOT NULL REFERENCES staff,
            signed_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "signatures" VALUES('01a215ea-0dd5-77d4-8bad-3b7b6769cf18','reviews','f544271cc2c2f9b1','01a215ea-0bfd-7566-a38e-f05bab61ea11','2027-03-05T10:00:00.000000Z');
CREATE TABLE staff (
            id TEXT PRIMARY KEY, name TEXT NOT NULL, email TEXT NOT NULL UNIQUE, password_hash TEXT NOT NULL, created_at TEXT NOT NULL, left_at TEXT
        , role TEXT NOT NULL DEFAULT 'nurse'
            CHECK (role IN ('nurse', 'surgeon', 'administrator')), totp_secret TEXT, totp_last INTEGER) STRICT;
INSERT INTO "staff" VALUES('01a215ea-0bd9-7618-bcf6-dcca5bd44bb7','Nora Nurse','nurse@test.invalid','$argon2id$v=19$m=8,t=1,p=1$dvMpqNByg8EvOhd/PRJUAg$9sEMbxcisZNZ3eWu60tVzzT3DboZbKfwtNuBhvCLuEw','2027-03-02T14:00:00.000000Z',NULL,'nurse',NULL,NULL);
INSERT INTO "staff" VALUES('01a215ea-0bfd-7566-a38e-f05bab61ea11','Sol Surgeon','surgeon@test.invalid','$argon2id$v=19$m=8,t=1,p=1$dGGBTeYBd1qRqRMgYHCqQg$QyXEuy2SFI5LHDf7Jv3jnOy5uos6/tAhuJbZtGvStKA','2027-03-02T14:00:00.000000Z',NULL,'surgeon',NULL,NULL);
CREATE TABLE state_made (only INTEGER PRIMARY KEY CHECK (only = 1), how TEXT NOT NULL) STRICT;
CREATE TABLE tasks (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks,
            eye_id TEXT NOT NULL REFERENCES "eyes", kind TEXT NOT NULL, words TEXT NOT NULL, visit_id TEXT,
            owner TEXT REFERENCES staff, due_at TEXT NOT NULL, made_by TEXT NOT NULL REFERENCES staff, made_at TEXT NOT NULL,
            told_at TEXT, done_at TEXT, done_by TEXT REFERENCES staff, done_words TEXT NOT NULL DEFAULT '',
            given_up INTEGER NOT NULL DEFAULT 0
        , decision TEXT) STRICT;
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
INSERT INTO "visits" VALUES('01a215ea-0c1b-7270-9cb9-4f443bce103d','01a215ea-0c19-7721-88bd-4ca8a33da141','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a215ea-0bd9-7618-bcf6-dcca5bd44bb7','2027-03-02T19:00:00.000000Z',NULL,0,'01a215ea-0c1b-7270-9cb9-4f443bce103d',NULL,'');
INSERT INTO "visits" VALUES('01a215ea-0c1c-7562-8c30-29032cdf8b48','01a215ea-0c19-7721-88bd-4ca8a33da141','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a215ea-0bd9-7618-bcf6-dcca5bd44bb7','2027-03-02T19:00:00.000000Z',NULL,0,'01a215ea-0c1c-7562-8c30-29032cdf8b48',NULL,'');
INSERT INTO "visits" VALUES('01a215ea-0c65-7011-98cf-6ad453abd86d','01a215ea-0c64-76f6-a1c3-9b8b1cec9bfd','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a215ea-0bd9-7618-bcf6-dcca5bd44bb7','2027-03-02T19:00:00.000000Z',NULL,0,'01a215ea-0c65-7011-98cf-6ad453abd86d',NULL,'');
INSERT INTO "visits" VALUES('01a215ea-0c65-7011-98cf-6ad5f7aac890','01a215ea-0c64-76f6-a1c3-9b8b1cec9bfd','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a215ea-0bd9-7618-bcf6-dcca5bd44bb7','2027-03-02T19:00:00.000000Z',NULL,0,'01a215ea-0c65-7011-98cf-6ad5f7aac890',NULL,'');
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
INSERT INTO "warnings" VALUES('01a215ea-0d35-7775-921c-4048d5d44251','01a215ea-0c19-7721-88bd-4ca8a33da141','01a215ea-0d0c-710b-b3b1-b075c9760bf9','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','ace2c13b361bac3d','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215ea-0d35-7775-921c-404bbd19d477','01a215ea-0c19-7721-88bd-4ca8a33da141','01a215ea-0d35-7775-921c-4049386cc0d5','posture-missed','posture','this-week','2027-03-03T23:00:00.000000Z',0.75,'{"date":"2027-03-03","hours":3.0,"target_hours":12.0}','{"share":0.5}','CP','Only 3 of 12 hours of posturing on 2027-03-03.','ace2c13b361bac3d','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215ea-0d35-7775-921c-404e9ab6ab96','01a215ea-0c19-7721-88bd-4ca8a33da141','01a215ea-0d35-7775-921c-404cbcc90c87','silent-while-posturing','silence','this-week','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','ace2c13b361bac3d','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215ea-0d36-7343-9531-c642e11b628f','01a215ea-0c19-7721-88bd-4ca8a33da141','01a215ea-0d35-7775-921c-404cbcc90c87','no-posture-entry','silence','this-week','2027-03-04T23:00:00.000000Z',1.0,'{"date":"2027-03-04"}','{}','CP','Nothing logged for posturing on 2027-03-04.','ace2c13b361bac3d','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215ea-0d79-749a-b94b-354b3117160d','01a215ea-0c19-7721-88bd-4ca8a33da141','01a215ea-0d79-749a-b94b-3549e88d2e03','infection-suspected','infection','now','2027-03-05T09:00:00.000000Z',30.0,'{"pain":8,"vision":"worse"}','{"count":2,"signs":["pain>=4","vision=worse","redness=worse","discharge"]}','BOSU','Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five.','ace2c13b361bac3d','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215ea-0d79-749a-b94b-354efdad2432','01a215ea-0c19-7721-88bd-4ca8a33da141','01a215ea-0d79-749a-b94b-354c0258d1f8','severe-pain','pressure','now','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=7"]}','VRS','Severe pain (8 of 10): pressure and infection must be ruled out.','ace2c13b361bac3d','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215ea-0d79-749a-b94b-3551fb914d11','01a215ea-0c19-7721-88bd-4ca8a33da141','01a215ea-0d79-749a-b94b-354f44bd89c8','curtain','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"curtain":true,"pain":8}','{"count":1,"signs":["curtain"]}','RD14','A curtain or shadow that does not move with the bubble: new detachment until shown otherwise.','ace2c13b361bac3d','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215ea-0d79-749a-b94b-3553c24b32aa','01a215ea-0c19-7721-88bd-4ca8a33da141','01a215ea-0d79-749a-b94b-354c0258d1f8','pain','pressure','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=5"]}','VRS','Pain of 8 of 10, beyond what simple painkillers usually hold.','ace2c13b361bac3d','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215ea-0d7a-74a3-8aa5-4d82b31920e6','01a215ea-0c19-7721-88bd-4ca8a33da141','01a215ea-0d79-749a-b94b-354f44bd89c8','vision-worse','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','Hol09','The patient says that the vision fell.','ace2c13b361bac3d','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215ea-0d7a-74a3-8aa5-4d84b2621f27','01a215ea-0c19-7721-88bd-4ca8a33da141','01a215ea-0d79-749a-b94b-354f44bd89c8','vision-said-worse','retina','this-week','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','Hol09','The patient said that the vision fell. Ask again, whatever the second look said.','ace2c13b361bac3d','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215ea-0da3-72d1-9045-e24a6004f789','01a215ea-0c19-7721-88bd-4ca8a33da141','01a215ea-0d79-749a-b94b-354c0258d1f8','pressure-severe','pressure','now','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":40}','Bern12','Pressure 41 mmHg, at or above 40.','ace2c13b361bac3d','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215ea-0da3-72d1-9045-e24c7473956b','01a215ea-0c19-7721-88bd-4ca8a33da141','01a215ea-0d79-749a-b94b-354c0258d1f8','pressure-spike','pressure','today','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":30}','Bern12','Pressure 41 mmHg, at or above 30.','ace2c13b361bac3d','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215ea-0da3-72d1-9045-e24ee78d4fa0','01a215ea-0c19-7721-88bd-4ca8a33da141','01a215ea-0d79-749a-b94b-354c0258d1f8','pressure-raised','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":24}','NICE','Pressure 41 mmHg, at or above 24.','ace2c13b361bac3d','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215ea-0da4-7675-be0f-0d0cb328d385','01a215ea-0c19-7721-88bd-4ca8a33da141','01a215ea-0d79-749a-b94b-354c0258d1f8','pressure-rise','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"baseline_mmhg":15.0,"instrument":"applanation","iop_mmhg":41.0,"pain":null,"risen_mmhg":26.0}','{"mmhg":24,"rise_mmhg":10}','LOH19','Pressure 41 mmHg, 26 above this eye’s own 15.','ace2c13b361bac3d','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215ea-0da8-745c-8ab1-20155e7a4e72','01a215ea-0c19-7721-88bd-4ca8a33da141','01a215ea-0d79-749a-b94b-354c0258d1f8','pressure-rising','pressure','this-week','2027-03-05T10:00:00.000000Z',26.0,'{"instrument":"applanation","iop_mmhg":41.0,"moved_mmhg":26.0,"pain":null,"usual_mmhg":15.0}','{"by_mmhg":5,"direction":"up","mmhg":18}','SIO','Pressure 41 mmHg, 26 above what is usual for this eye (15).','ace2c13b361bac3d','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215ea-0daf-74d2-95a2-fe175f2f75e2','01a215ea-0c64-76f6-a1c3-9b8b1cec9bfd','01a215ea-0daf-74d2-95a2-fe15c2101759','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','ace2c13b361bac3d','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215ea-0daf-74d2-95a2-fe1a401ecb59','01a215ea-0c64-76f6-a1c3-9b8b1cec9bfd','01a215ea-0daf-74d2-95a2-fe1812bfa443','no-posture-entry','silence','this-week','2027-03-03T23:00:00.000000Z',1.0,'{"date":"2027-03-03"}','{}','CP','Nothing logged for posturing on 2027-03-03.','ace2c13b361bac3d','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215ea-0daf-74d2-95a2-fe1c3fe42614','01a215ea-0c64-76f6-a1c3-9b8b1cec9bfd','01a215ea-0daf-74d2-95a2-fe1812bfa443','silent-while-posturing','silence','this-week','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','ace2c13b361bac3d','2027-03-05T10:00:00.000000Z');
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
COMMIT;
