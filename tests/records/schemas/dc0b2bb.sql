BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'followup','m001_people','2026-11-26 00:57:34.446082+00:00');
INSERT INTO "_sqlite_migrations" VALUES(2,'followup','m002_eyes','2026-11-26 00:57:34.451649+00:00');
INSERT INTO "_sqlite_migrations" VALUES(3,'followup','m003_worries','2026-11-26 00:57:34.458806+00:00');
INSERT INTO "_sqlite_migrations" VALUES(4,'followup','m004_audit','2026-11-26 00:57:34.464439+00:00');
INSERT INTO "_sqlite_migrations" VALUES(5,'followup','m005_messages','2026-11-26 00:57:34.466283+00:00');
INSERT INTO "_sqlite_migrations" VALUES(6,'followup','m006_repair','2026-11-26 00:57:34.476532+00:00');
INSERT INTO "_sqlite_migrations" VALUES(7,'followup','m007_tasks','2026-11-26 00:57:34.490334+00:00');
INSERT INTO "_sqlite_migrations" VALUES(8,'followup','m008_visit_identities','2026-11-26 00:57:34.498439+00:00');
INSERT INTO "_sqlite_migrations" VALUES(9,'followup','m009_watch','2026-11-26 00:57:34.504114+00:00');
INSERT INTO "_sqlite_migrations" VALUES(10,'followup','m011_bounds','2026-11-26 00:57:34.525964+00:00');
INSERT INTO "_sqlite_migrations" VALUES(11,'followup','m020_two_eyes','2026-11-26 00:57:34.608831+00:00');
INSERT INTO "_sqlite_migrations" VALUES(12,'followup','m021_grounds_of_warnings','2026-11-26 00:57:34.615372+00:00');
INSERT INTO "_sqlite_migrations" VALUES(13,'followup','m025_joined_by_index','2026-11-26 00:57:34.618672+00:00');
INSERT INTO "_sqlite_migrations" VALUES(14,'followup','m026_one_call','2026-11-26 00:57:34.624050+00:00');
INSERT INTO "_sqlite_migrations" VALUES(15,'followup','m027_book_of_visits','2026-11-26 00:57:34.630398+00:00');
INSERT INTO "_sqlite_migrations" VALUES(16,'followup','m029_sessions','2026-11-26 00:57:34.650168+00:00');
INSERT INTO "_sqlite_migrations" VALUES(17,'followup','m030_sealed_facts','2026-11-26 00:57:34.657616+00:00');
CREATE TABLE audit (
            number INTEGER PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, action TEXT NOT NULL, subject TEXT NOT NULL,
            detail TEXT NOT NULL, previous TEXT NOT NULL, hash TEXT NOT NULL
        , facts TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "audit" VALUES(1,'2027-03-02T14:00:00.000000Z','command line','staff added','01a2155b-9ac6-77f2-8f3a-dbcc34684c4f','{"role":"nurse"}','0000000000000000000000000000000000000000000000000000000000000000','fe4aca9a7cdc3e55a54fbffc780002c9a90c7b4190219a55be802b95f3eac346','[["staff", "01a2155b-9ac6-77f2-8f3a-dbcc34684c4f", "4865e9a0b4427eb8bfeaf5c50d0144c074e16d263b033ab9f2d1125086ff693d"]]');
INSERT INTO "audit" VALUES(2,'2027-03-02T14:00:00.000000Z','command line','staff added','01a2155b-9acc-7589-9946-6df07d6f7b09','{"role":"surgeon"}','fe4aca9a7cdc3e55a54fbffc780002c9a90c7b4190219a55be802b95f3eac346','e04bee08e45316f84dffce6476baced3aa407be9e75fc7a3104efaf0ee9b5239','[["staff", "01a2155b-9acc-7589-9946-6df07d6f7b09", "00225999887348e681bd421992b6db86f709960f121d29dabafc93a8732f2625"]]');
INSERT INTO "audit" VALUES(3,'2027-03-02T19:00:00.000000Z','nurse:01a2155b-9ac6-77f2-8f3a-dbcc34684c4f','enrolment code','01a2155b-9ad1-749a-8bc2-16df9f307884','null','e04bee08e45316f84dffce6476baced3aa407be9e75fc7a3104efaf0ee9b5239','ea38fefca7bc7442a280e35b7c8af56cd4123f211c3f0f595bfd2629b9196b70','');
INSERT INTO "audit" VALUES(4,'2027-03-02T19:00:00.000000Z','nurse:01a2155b-9ac6-77f2-8f3a-dbcc34684c4f','discharge','01a2155b-9ad1-749a-8bc2-16e0cde1234f','{"agent":"c2f6","eye":"right"}','ea38fefca7bc7442a280e35b7c8af56cd4123f211c3f0f595bfd2629b9196b70','cdb87eac5c603ab7ef6bfc5dbcc548088a247a4f33f074648e4ca0c2b4c7f15e','[["patients", "01a2155b-9ad1-749a-8bc2-16df9f307884", "1f673e2c0d9b265cda88acf70019e4c24c6f9a65274dd1f5f182c67af586a3d7"], ["eyes", "01a2155b-9ad1-749a-8bc2-16e0cde1234f", "75d1f2af33d139db1b48db44ef1acd2bd1197d9f78fd24847f5cb7d29fd42762"], ["eyes", "01a2155b-9ad1-749a-8bc2-16e182966734", "95f24470826d7d86005af30b5f829bf374526e601d923dbc7d51ce3382b80b0b"], ["operations", "01a2155b-9ad3-7414-8220-dd2a28848e7b", "89c036ee748a2cce54d65547ca6040d218786b2560526bdffd03ff18c5e8d4fe"], ["operation_records", "01a2155b-9ad3-7414-8220-dd2bdc045243", "ba1ba329e5975d24111297f0a150815345948412fcdbde652eebcb36e7815c1e"], ["visits", "01a2155b-9ad3-7414-8220-dd2c19a9b7dc", "32d4a5f71a8196ce9d6f382fbf099ce30f0078afb02367d7c4cf972922d441ff"], ["visits", "01a2155b-9ad3-7414-8220-dd2d1d9d8071", "ae9b76bc50fff797112477ceba1e91906407cab1b863bc0d6c11837bdd5acca7"], ["follow_ups", "01a2155b-9ad4-7712-8649-6ade6ebaf675", "21c3013bc3e610b66b7bf00d3b168ef4cd5de3499660cfb2de5b5a30e38203bd"]]');
INSERT INTO "audit" VALUES(5,'2027-03-02T19:00:00.000000Z','nurse:01a2155b-9ac6-77f2-8f3a-dbcc34684c4f','enrolment code','01a2155b-9adc-7559-a3c4-8c021be2124a','null','cdb87eac5c603ab7ef6bfc5dbcc548088a247a4f33f074648e4ca0c2b4c7f15e','fd8a135227e17ac27ad5a11c4ff163fa4b6fb6679ded47fa156abda6d58d7342','');
INSERT INTO "audit" VALUES(6,'2027-03-02T19:00:00.000000Z','nurse:01a2155b-9ac6-77f2-8f3a-dbcc34684c4f','discharge','01a2155b-9adc-7559-a3c4-8c0323117af7','{"agent":"silicone-oil","eye":"right"}','fd8a135227e17ac27ad5a11c4ff163fa4b6fb6679ded47fa156abda6d58d7342','2e1e5df9693043a7ee47629c5aaabc6e7af7eed6e5b90e2e6aa422b37ebd42d6','[["patients", "01a2155b-9adc-7559-a3c4-8c021be2124a", "24e46134b2cef53ebcd242ef5e9e628c90079c028a35081023f15fd5f3f39eb2"], ["eyes", "01a2155b-9adc-7559-a3c4-8c0323117af7", "b4a6836ecc1f3d703eb05845cd65a25c5eabadfea0fcabe3fa51fff1920d90b5"], ["eyes", "01a2155b-9adc-7559-a3c4-8c045b1b4d79", "82a9966328bdb40b8232f7b17ecd5a3ccbfc4dee96d0c93f4006110845504732"], ["operations", "01a2155b-9add-7237-832a-dfbcf1dcf035", "1f8ccd17901ee13117bb58e0a7565089648ab666341aaad39936e0649a9dfc35"], ["operation_records", "01a2155b-9add-7237-832a-dfbd4c1b2e28", "52f7f359e8f4081fc57833eea58416c1217458854c1a5f4e712699a5ca46523f"], ["visits", "01a2155b-9add-7237-832a-dfbee4affacb", "716579f5b87905ef0db0a7eba546749752d9d9d4b80fe0b91f653c440837c2a2"], ["visits", "01a2155b-9add-7237-832a-dfbf7074db00", "b87cfcc54d414de367afea7ff1e8416feb41d68a57e212297d20784ec46d6299"], ["follow_ups", "01a2155b-9add-7237-832a-dfc04b7377a7", "65f9d7abdf234e6661392e5b54749ac309d47e11ce29550f8f52294cd6e1d2e2"]]');
INSERT INTO "audit" VALUES(7,'2027-03-02T20:00:00.000000Z','patient:01a2155b-9ae4-7648-80d4-0dcc02e71982','device enrolled','01a2155b-9ad1-749a-8bc2-16df9f307884','null','2e1e5df9693043a7ee47629c5aaabc6e7af7eed6e5b90e2e6aa422b37ebd42d6','854f1d92e1409b59f8863343b8aa65688f61f329bcc1019d7463f873d5103af8','[["devices", "01a2155b-9ae4-7648-80d4-0dcc02e71982", "839cc8343e5a5e414d833e00aba3118ac2c81cb508b0db4dec92ddb4319d138e"]]');
INSERT INTO "audit" VALUES(8,'2027-03-05T10:00:00.000000Z','patient:01a2155b-9ae4-7648-80d4-0dcc02e71982','event posture','01a2155b-9ad1-749a-8bc2-16e0cde1234f','{"id":"0195e5a0-0000-7000-8000-000000000001"}','854f1d92e1409b59f8863343b8aa65688f61f329bcc1019d7463f873d5103af8','24add993a6293e15ed02ea615d9a81e5cd98bb1ab37cae6e263962c46b7c7b6f','');
INSERT INTO "audit" VALUES(9,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2155b-9ad1-749a-8bc2-16e0cde1234f','{"how_soon":"today","rule":"missed-early-visit"}','24add993a6293e15ed02ea615d9a81e5cd98bb1ab37cae6e263962c46b7c7b6f','24d8e542ac14f3a07f0bd69283bdfd2ce41f82fe342808c7dafe0d7d3fb7809f','');
INSERT INTO "audit" VALUES(10,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2155b-9ad1-749a-8bc2-16e0cde1234f','{"how_soon":"this-week","rule":"posture-missed"}','24d8e542ac14f3a07f0bd69283bdfd2ce41f82fe342808c7dafe0d7d3fb7809f','2e688b26d193797bf4c6f56aa8bc251e82e9cc7539eba90fcb0411c62ce47e83','');
INSERT INTO "audit" VALUES(11,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2155b-9ad1-749a-8bc2-16e0cde1234f','{"how_soon":"this-week","rule":"silent-while-posturing"}','2e688b26d193797bf4c6f56aa8bc251e82e9cc7539eba90fcb0411c62ce47e83','130cdf9f0af0262a504761b9fe2e86af55f7ecdf528a329cf41d09f25799db27','');
INSERT INTO "audit" VALUES(12,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2155b-9ad1-749a-8bc2-16e0cde1234f','{"how_soon":"this-week","rule":"no-posture-entry"}','130cdf9f0af0262a504761b9fe2e86af55f7ecdf528a329cf41d09f25799db27','c09a03d61ea35eb7e1de8c48631f12c930efe44baba5d64114008094e1ac167a','[["events", "0195e5a0-0000-7000-8000-000000000001", "08fb3f808f74e242ed2b31716a7805ab3988db03723b0fa692afd3b764658e36"], ["callbacks", "01a2155b-9b06-759b-8d79-a7dc22a3538b", "31bc9330393396344321a1e1354b6c86ba17c9408285e7600c489be039a1fc25"], ["callback_steps", "01a2155b-9b06-759b-8d79-a7ddd43523cc", "25c844bdf7c55c6490da329b99ffa91e0c217c37567a4d33d8fc4e26e21c74c7"], ["warnings", "01a2155b-9b06-759b-8d79-a7de0445cb5e", "17fff1f808c10c4697b350e88bba33311c26ff9a58cadc379a5c8cc0149de354"], ["callbacks", "01a2155b-9b06-759b-8d79-a7df2fa8ac31", "87f9be5bf966cb70c75cca5f179efbd86bd123ca2e20ae3c38b759071b1029df"], ["callback_steps", "01a2155b-9b06-759b-8d79-a7e0857ab973", "bfddfcd4fce3f425706d6855aab3b4be84daea6f64ffc66c0c7368e1c5925263"], ["warnings", "01a2155b-9b06-759b-8d79-a7e13c8a8223", "b7dd002f2ed9e2393f0f375274bd4d6d10f992cf3b13e918fe9d704f68faf252"], ["callbacks", "01a2155b-9b06-759b-8d79-a7e22400b910", "67b724761d02b9d51a040a379006a92d72c175b97240449dc4debcd1196db74b"], ["callback_steps", "01a2155b-9b06-759b-8d79-a7e3934ef05d", "dd588f91554fc29fdff252e9f13f9ed707bbefc28a3a88349ac02f62b876a367"], ["warnings", "01a2155b-9b06-759b-8d79-a7e4b4cdd2bd", "1a39f3cc00e77caaeb9e5bd8b0e07635dbdd8cf16ada1a92ac86455447daeffc"], ["callback_steps", "01a2155b-9b07-7469-af95-a6c7239cfcba", "40ed0816c1278d3944444d84dc8d21174626b63ebafb4d7c924d1bb617f289d2"], ["warnings", "01a2155b-9b07-7469-af95-a6c8b09ae206", "4d9be3f5bb4973f3a5ec4536291b874df31b645d79105930dd44042238fc5e17"]]');
INSERT INTO "audit" VALUES(13,'2027-03-05T10:00:00.000000Z','patient:01a2155b-9ae4-7648-80d4-0dcc02e71982','event symptoms','01a2155b-9ad1-749a-8bc2-16e0cde1234f','{"id":"0195e5a0-0000-7000-8000-000000000002"}','c09a03d61ea35eb7e1de8c48631f12c930efe44baba5d64114008094e1ac167a','4fce76a6a490a05f36956906de407d2cfb45eb2120c67666e6584f411f25da34','');
INSERT INTO "audit" VALUES(14,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2155b-9ad1-749a-8bc2-16e0cde1234f','{"how_soon":"now","rule":"infection-suspected"}','4fce76a6a490a05f36956906de407d2cfb45eb2120c67666e6584f411f25da34','bc41c0a63e5965db257e8700843b3fde0e574dd9d8434eac4965b29681d3b16b','');
INSERT INTO "audit" VALUES(15,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2155b-9ad1-749a-8bc2-16e0cde1234f','{"how_soon":"now","rule":"severe-pain"}','bc41c0a63e5965db257e8700843b3fde0e574dd9d8434eac4965b29681d3b16b','1d4cb8dd28b83d2fbc684dbf98c9ab53e00769d8bd92ac09a2d627cb9c5b7aa5','');
INSERT INTO "audit" VALUES(16,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2155b-9ad1-749a-8bc2-16e0cde1234f','{"how_soon":"today","rule":"curtain"}','1d4cb8dd28b83d2fbc684dbf98c9ab53e00769d8bd92ac09a2d627cb9c5b7aa5','c7ab1e7152f0ce976596cb1578752c120130a8c4ded1628ff6f433a57a534331','');
INSERT INTO "audit" VALUES(17,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2155b-9ad1-749a-8bc2-16e0cde1234f','{"how_soon":"today","rule":"pain"}','c7ab1e7152f0ce976596cb1578752c120130a8c4ded1628ff6f433a57a534331','61f27e10edc10b6efdbc2a517fa1214176a26f38fea19e3a45b86a692a1bacba','');
INSERT INTO "audit" VALUES(18,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2155b-9ad1-749a-8bc2-16e0cde1234f','{"how_soon":"today","rule":"vision-worse"}','61f27e10edc10b6efdbc2a517fa1214176a26f38fea19e3a45b86a692a1bacba','847b9068f95ec3e9a6f5de86a12354c849af2bc1c3d0dd90f84d80e293589550','');
INSERT INTO "audit" VALUES(19,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2155b-9ad1-749a-8bc2-16e0cde1234f','{"how_soon":"this-week","rule":"vision-said-worse"}','847b9068f95ec3e9a6f5de86a12354c849af2bc1c3d0dd90f84d80e293589550','df884964ceb1f4841892a218880f8ed62c660e90a69d5c6a268d695301d0fb7e','[["events", "0195e5a0-0000-7000-8000-000000000002", "f4731d9249a3bbba042e41841c23b8d3de0c8f334de8be59942b24bb435d0390"], ["callbacks", "01a2155b-9b16-72c6-8b38-7ede61a98365", "68210d0088b60559b461d07388015dc97d6df80a7a02c6037aa12670733e54ca"], ["callback_steps", "01a2155b-9b16-72c6-8b38-7edfbca4d2fd", "6c4cdd50fe490b65853a5e81f736f88d66b30093a770a4c3fbf053e8e7bd8742"], ["warnings", "01a2155b-9b16-72c6-8b38-7ee02607cfe6", "3b0db1339f4ec9f92c060315a02797494313d95e998ccd181c66338d892db5d4"], ["callbacks", "01a2155b-9b16-72c6-8b38-7ee1ac6b9bbc", "4553ffd2faad7fa4fc50f58c3dd24cd8034b6671df088a62b334178924b4de8a"], ["callback_steps", "01a2155b-9b16-72c6-8b38-7ee26ab1a53e", "a4df38d2b52ed947aa942371817efec18d4678db45965766c7a9d9d8d37e1231"], ["warnings", "01a2155b-9b16-72c6-8b38-7ee3092a5621", "d12045ff87aa565ec11ae461aedd2caaa41ac29909a42f29197010ce7abf4db1"], ["callbacks", "01a2155b-9b16-72c6-8b38-7ee4fbc13117", "db01b2f437ad3d856888eebe53aaea88b4263e3852018735fba3693aff01b4ff"], ["callback_steps", "01a2155b-9b16-72c6-8b38-7ee520833781", "0f3bd7040ab1893fcb71b3b5b240961bfcad139c92f3c9b59f95880dcd8e8e0a"], ["warnings", "01a2155b-9b17-7471-8956-7f6edac62015", "8cdb812ffa95e399ee6b721125c16e48f8d75963b8c4b943b839608b85428670"], ["callback_steps", "01a2155b-9b17-7471-8956-7f6f15c200f2", "453e2e5e836ff47be935eeb6ea4f04b9e8d63556a20045d3491d06d3710379b5"], ["warnings", "01a2155b-9b17-7471-8956-7f70edde67ff", "124de92089db631307df257925df904e74afd0eb7b081d3e7b565562369fad24"], ["callback_steps", "01a2155b-9b17-7471-8956-7f71c1b7b79c", "16ae69f656fb4c7e8fa157be6ef87139fecef10bd13b4384cee95397b250ec3f"], ["warnings", "01a2155b-9b17-7471-8956-7f72ad37e0f1", "6a411434e0e6857b83cae8f27275f06520ee1124d7254762b2ef3a158dee9fd9"], ["callback_steps", "01a2155b-9b17-7471-8956-7f73aab5c1db", "7e27a1b226ed9383d28ba43497b5a15848571cc34d67f7036e55da98fc7ec673"], ["warnings", "01a2155b-9b17-7471-8956-7f748975943c", "ed65752466ae9564374f9631517ddea29a9a17bcfba21780e3351b897348c03e"]]');
INSERT INTO "audit" VALUES(20,'2026-11-26T00:57:34.761018Z','followup','recorded','refused_events','null','df884964ceb1f4841892a218880f8ed62c660e90a69d5c6a268d695301d0fb7e','ea3964c29e850ee07cf14b325678ab67c752dd1b6971d9e4d30c268487c641d9','[["refused_events", "ed4b203878849eecdccfcf74877d2b28459c54d07ca4621c170b5efe9f99eee7", "fcc74ed64b2e66086720ef129fcc63d6154b890b59ade841b5a01f100ad5c080"]]');
INSERT INTO "audit" VALUES(21,'2027-03-05T10:00:00.000000Z','nurse:01a2155b-9ac6-77f2-8f3a-dbcc34684c4f','event measures','01a2155b-9ad1-749a-8bc2-16e0cde1234f','{"id":"01a2155b-9b2b-71d1-8a8a-3baa5e5cd595"}','ea3964c29e850ee07cf14b325678ab67c752dd1b6971d9e4d30c268487c641d9','0b4455f160e26b717913ac49d49153672ce9aec1ead4e8ca7950242a690edc8f','');
INSERT INTO "audit" VALUES(22,'2027-03-05T10:00:00.000000Z','nurse:01a2155b-9ac6-77f2-8f3a-dbcc34684c4f','event seen','01a2155b-9ad1-749a-8bc2-16e0cde1234f','{"id":"01a2155b-9b2d-74eb-8696-df8a8fc374cc"}','0b4455f160e26b717913ac49d49153672ce9aec1ead4e8ca7950242a690edc8f','ba10904d6cb811353b9600c9bba87dbaa5d2943c182239ce497cd4e304899267','');
INSERT INTO "audit" VALUES(23,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2155b-9ad1-749a-8bc2-16e0cde1234f','{"how_soon":"now","rule":"pressure-severe"}','ba10904d6cb811353b9600c9bba87dbaa5d2943c182239ce497cd4e304899267','17f1797e09e1819aca1c78b35861bd15059c27469c02fd6b30f53ffde77502d7','');
INSERT INTO "audit" VALUES(24,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2155b-9ad1-749a-8bc2-16e0cde1234f','{"how_soon":"today","rule":"pressure-spike"}','17f1797e09e1819aca1c78b35861bd15059c27469c02fd6b30f53ffde77502d7','df78eeff99e8d89a87754817f91020b9fa243d37c3168d247a8da3256c2f348e','');
INSERT INTO "audit" VALUES(25,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2155b-9ad1-749a-8bc2-16e0cde1234f','{"how_soon":"this-week","rule":"pressure-raised"}','df78eeff99e8d89a87754817f91020b9fa243d37c3168d247a8da3256c2f348e','8a6d919995822d7f93f0d86dd3fc75b610cf00aa83b438072131ef6a0ca4e278','');
INSERT INTO "audit" VALUES(26,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2155b-9ad1-749a-8bc2-16e0cde1234f','{"how_soon":"this-week","rule":"pressure-rise"}','8a6d919995822d7f93f0d86dd3fc75b610cf00aa83b438072131ef6a0ca4e278','231b6af7e9a06b777453d6d45be627a28d6a1d5e878b71b5a3b8d7e27f03cd7f','');
INSERT INTO "audit" VALUES(27,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2155b-9ad1-749a-8bc2-16e0cde1234f','{"how_soon":"this-week","rule":"pressure-rising"}','231b6af7e9a06b777453d6d45be627a28d6a1d5e878b71b5a3b8d7e27f03cd7f','0020bae5e9ccba0b730e1dd3b05f9c9b7c33e70183bf4c3eb2bb7af3cd9b90b7','[["events", "01a2155b-9b2b-71d1-8a8a-3baa5e5cd595", "d1a5c52eae1d4816f2f0b6d0019aa3fa83ae30eed4111abeafd8bb1272c06323"], ["events", "01a2155b-9b2d-74eb-8696-df8a8fc374cc", "e1632e2eb44105900c279b736da50c9fc135070453dab4984e4b394405c99fb8"], ["callback_steps", "01a2155b-9b34-7099-8432-a42021070b4b", "0a6741e976f24801882a3fa095ec21e0a10ed3f677c412e25c03bf304c8d74c5"], ["warnings", "01a2155b-9b34-7099-8432-a4215ab812fd", "a938a44bb6f0bd57ac9db81b5b0b982edbb9de7f387722b002832b4a9b3dddcb"], ["callback_steps", "01a2155b-9b34-7099-8432-a422d2c08c0d", "e93d80614360f51548a08c6b1ca8a299f265d64452d70ceb04de6984065cba1f"], ["warnings", "01a2155b-9b34-7099-8432-a4239f1e0e00", "973202a865c48e64fe45d96cf710ff88293e8ce4c1bde61c8655255c78b6101b"], ["callback_steps", "01a2155b-9b35-7441-9860-c0ffda207e62", "f7dfc18ebbf53ad21d7d0d53c55bdc1d1798812eafbb4e37211209daab385067"], ["warnings", "01a2155b-9b35-7441-9860-c100f3a0767a", "1afd87b40863dea1f675a494a59dff8b80a322cc363440bbc3869497eb2dccde"], ["callback_steps", "01a2155b-9b35-7441-9860-c101cd0d1cab", "129e7e240bddca8ed677358eeb52374f8216faa85ef30a3dc4c5894a910dec6c"], ["warnings", "01a2155b-9b35-7441-9860-c102d9da4ccd", "4653dfc3926bbfae5ce4929878e2eb1b69202749e21eacc1df25115873035034"], ["callback_steps", "01a2155b-9b35-7441-9860-c103203f6c1a", "a82e41eb52dfc31d77f831849a1b03e8570108f96f525d108a02f23309feefea"], ["warnings", "01a2155b-9b35-7441-9860-c1044449a762", "975d0f6d3ab8264a553d80d859be03158948bd3a0072d4b0ad2dddd82b430bc1"]]');
INSERT INTO "audit" VALUES(28,'2027-03-05T10:00:00.000000Z','nurse:01a2155b-9ac6-77f2-8f3a-dbcc34684c4f','event measures','01a2155b-9adc-7559-a3c4-8c0323117af7','{"id":"01a2155b-9b3c-75a0-8108-e6877ee965c9"}','0020bae5e9ccba0b730e1dd3b05f9c9b7c33e70183bf4c3eb2bb7af3cd9b90b7','6cfc4a6c7b304d10ff56f35dcac2d80e0234e0ab6d77fd19b1bfadb5911fe058','');
INSERT INTO "audit" VALUES(29,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2155b-9adc-7559-a3c4-8c0323117af7','{"how_soon":"today","rule":"missed-early-visit"}','6cfc4a6c7b304d10ff56f35dcac2d80e0234e0ab6d77fd19b1bfadb5911fe058','66a98ccf06c9652452ea091224c346872a45f3cdac8fc38a6ff988a5fcf3e2ac','');
INSERT INTO "audit" VALUES(30,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2155b-9adc-7559-a3c4-8c0323117af7','{"how_soon":"this-week","rule":"no-posture-entry"}','66a98ccf06c9652452ea091224c346872a45f3cdac8fc38a6ff988a5fcf3e2ac','b3a8d37b3bdb1e63f9901f9957d83875c4b104e3656fc58f2bffdf71f3d056b2','');
INSERT INTO "audit" VALUES(31,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2155b-9adc-7559-a3c4-8c0323117af7','{"how_soon":"this-week","rule":"silent-while-posturing"}','b3a8d37b3bdb1e63f9901f9957d83875c4b104e3656fc58f2bffdf71f3d056b2','4e8dc77178ce8bdc2e525b3bd43a51d4315d3765ee3a9a1bc20b813c6f33a194','[["events", "01a2155b-9b3c-75a0-8108-e6877ee965c9", "b87444b757e32645cb0f77be44a9163c7fce431de886f63502be5248a9f5fb79"], ["callbacks", "01a2155b-9b3d-7152-924d-093576e9d01f", "6681522ecc327a942d13cc4ab170d76b9e8482b0ce55cf9a794253503f10a7c8"], ["callback_steps", "01a2155b-9b3d-7152-924d-093642031cf6", "db9ef37ec0c5edb2c0fbff4ec9bf52645867493a2fef919bbd0a83b174d0fb4f"], ["warnings", "01a2155b-9b3d-7152-924d-09372f608897", "c6bf603aa5331a74570251f1c607061a7b9c41bcb0e32f033834b6d6d1ef76a0"], ["callbacks", "01a2155b-9b3e-7666-91a8-8ddb47099182", "f6d8e4419de8e0ea235e74871ca0ce4eb402d85604375d97330046c7f690e734"], ["callback_steps", "01a2155b-9b3e-7666-91a8-8ddccfe8f1f2", "048e336e6a53e07fe8a95d329f2064c8d250914144426e62043fe4ec22f73738"], ["warnings", "01a2155b-9b3e-7666-91a8-8ddd24497222", "1904ad0dbb75e9b15e16d4456de60637ce625507f358bf500b19c1b074d711e9"], ["callback_steps", "01a2155b-9b3e-7666-91a8-8ddebb50eea0", "2582de476f3113f6f94ec8bb7f4957a0cefe40be67f3e95712696ffdc2cc2ffa"], ["warnings", "01a2155b-9b3e-7666-91a8-8ddf02369356", "49cd8c44e5154eaf86ab7412f9431c98786ec8bfdf0d160369227807eff60792"]]');
INSERT INTO "audit" VALUES(32,'2027-03-05T10:00:00.000000Z','nurse:01a2155b-9ac6-77f2-8f3a-dbcc34684c4f','callback claimed','01a2155b-9b16-72c6-8b38-7ede61a98365','null','4e8dc77178ce8bdc2e525b3bd43a51d4315d3765ee3a9a1bc20b813c6f33a194','4f0331cbf5eda200347d16d1fee6fcf63da7689b6c0f3845452b46d65fb85f35','[["callbacks", "01a2155b-9b16-72c6-8b38-7ede61a98365", "86f473c1e5680161079c46b40f6c3fcc06739e49b477ac86d0591b69a13076db"], ["callback_steps", "01a2155b-9b48-7592-b9ed-b2b2613bd62e", "a9745a084ef8b8c78f4a95f50d46c6f24480de4fcb3246412b099756e090c2e8"]]');
INSERT INTO "audit" VALUES(33,'2027-03-05T10:00:00.000000Z','nurse:01a2155b-9ac6-77f2-8f3a-dbcc34684c4f','callback attempt','01a2155b-9b16-72c6-8b38-7ede61a98365','{"reached":true}','4f0331cbf5eda200347d16d1fee6fcf63da7689b6c0f3845452b46d65fb85f35','ddc091d126be44f5b4cd2e33ca9aa7dcc376897e81f74f046d22ba14acf42955','[["events", "01a2155b-9b4d-739f-9ef4-5efc5635ea03", "95416d8b166c32f30a5dfe79be2f8ee80dd35e165fd7bc7c53f0ed2a2619e390"], ["callback_steps", "01a2155b-9b4d-739f-9ef4-5efdddbe92a4", "b1b063cd5bde27a4c4e8d825c190291713785a8f0c22e643e1094e787ee878eb"], ["callbacks", "01a2155b-9b16-72c6-8b38-7ede61a98365", "86f473c1e5680161079c46b40f6c3fcc06739e49b477ac86d0591b69a13076db"]]');
INSERT INTO "audit" VALUES(34,'2027-03-05T10:00:00.000000Z','nurse:01a2155b-9ac6-77f2-8f3a-dbcc34684c4f','callback settled','01a2155b-9b16-72c6-8b38-7ede61a98365','{"outcome":"advice"}','ddc091d126be44f5b4cd2e33ca9aa7dcc376897e81f74f046d22ba14acf42955','0c9a11c0593f20f48ce78c7ae2058c2906413c93ba39dfed9d276a1eb6b99beb','[["callbacks", "01a2155b-9b16-72c6-8b38-7ede61a98365", "03c6622d0a9a3c63b9b48ac9dd9c808afe843fd6788ca22cb35d9325d8d1e786"], ["callback_steps", "01a2155b-9b59-7315-8704-744398d323fc", "0f6cfcda8d8ffba33d49731aaa526b3d5df7b2ee2bad526983b15197c2e46759"]]');
INSERT INTO "audit" VALUES(35,'2027-03-05T10:00:00.000000Z','surgeon:01a2155b-9acc-7589-9946-6df07d6f7b09','protocol signed','reviews','{"fingerprint":"f544271cc2c2f9b1"}','0c9a11c0593f20f48ce78c7ae2058c2906413c93ba39dfed9d276a1eb6b99beb','613379281f9baa41a0b0c3feddb324abc925cb63e88c61798475ae2bfa9f89ad','[["signatures", "01a2155b-9b5b-7566-acfc-423433123514", "48071c872d5196b324ba542d47173aaf96a77315b1433ad9db30f3e96613c1ea"]]');
CREATE TABLE callback_steps (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks, at TEXT NOT NULL, who TEXT NOT NULL,
            step TEXT NOT NULL, detail TEXT NOT NULL
        ) STRICT;
INSERT INTO "callback_steps" VALUES('01a2155b-9b06-759b-8d79-a7ddd43523cc','01a2155b-9b06-759b-8d79-a7dc22a3538b','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a2155b-9b06-759b-8d79-a7e0857ab973','01a2155b-9b06-759b-8d79-a7df2fa8ac31','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"posture-missed","words":"Only 3 of 12 hours of posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a2155b-9b06-759b-8d79-a7e3934ef05d','01a2155b-9b06-759b-8d79-a7e22400b910','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a2155b-9b07-7469-af95-a6c7239cfcba','01a2155b-9b06-759b-8d79-a7e22400b910','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-04."}');
INSERT INTO "callback_steps" VALUES('01a2155b-9b16-72c6-8b38-7edfbca4d2fd','01a2155b-9b16-72c6-8b38-7ede61a98365','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"infection-suspected","words":"Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five."}');
INSERT INTO "callback_steps" VALUES('01a2155b-9b16-72c6-8b38-7ee26ab1a53e','01a2155b-9b16-72c6-8b38-7ee1ac6b9bbc','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"severe-pain","words":"Severe pain (8 of 10): pressure and infection must be ruled out."}');
INSERT INTO "callback_steps" VALUES('01a2155b-9b16-72c6-8b38-7ee520833781','01a2155b-9b16-72c6-8b38-7ee4fbc13117','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"curtain","words":"A curtain or shadow that does not move with the bubble: new detachment until shown otherwise."}');
INSERT INTO "callback_steps" VALUES('01a2155b-9b17-7471-8956-7f6f15c200f2','01a2155b-9b16-72c6-8b38-7ee1ac6b9bbc','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pain","words":"Pain of 8 of 10, beyond what simple painkillers usually hold."}');
INSERT INTO "callback_steps" VALUES('01a2155b-9b17-7471-8956-7f71c1b7b79c','01a2155b-9b16-72c6-8b38-7ee4fbc13117','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"vision-worse","words":"The patient says that the vision fell."}');
INSERT INTO "callback_steps" VALUES('01a2155b-9b17-7471-8956-7f73aab5c1db','01a2155b-9b16-72c6-8b38-7ee4fbc13117','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"vision-said-worse","words":"The patient said that the vision fell. Ask again, whatever the second look said."}');
INSERT INTO "callback_steps" VALUES('01a2155b-9b34-7099-8432-a42021070b4b','01a2155b-9b16-72c6-8b38-7ee1ac6b9bbc','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"now","rule":"pressure-severe","words":"Pressure 41 mmHg, at or above 40."}');
INSERT INTO "callback_steps" VALUES('01a2155b-9b34-7099-8432-a422d2c08c0d','01a2155b-9b16-72c6-8b38-7ee1ac6b9bbc','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pressure-spike","words":"Pressure 41 mmHg, at or above 30."}');
INSERT INTO "callback_steps" VALUES('01a2155b-9b35-7441-9860-c0ffda207e62','01a2155b-9b16-72c6-8b38-7ee1ac6b9bbc','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-raised","words":"Pressure 41 mmHg, at or above 24."}');
INSERT INTO "callback_steps" VALUES('01a2155b-9b35-7441-9860-c101cd0d1cab','01a2155b-9b16-72c6-8b38-7ee1ac6b9bbc','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rise","words":"Pressure 41 mmHg, 26 above this eye’s own 15."}');
INSERT INTO "callback_steps" VALUES('01a2155b-9b35-7441-9860-c103203f6c1a','01a2155b-9b16-72c6-8b38-7ee1ac6b9bbc','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rising","words":"Pressure 41 mmHg, 26 above what is usual for this eye (15)."}');
INSERT INTO "callback_steps" VALUES('01a2155b-9b3d-7152-924d-093642031cf6','01a2155b-9b3d-7152-924d-093576e9d01f','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a2155b-9b3e-7666-91a8-8ddccfe8f1f2','01a2155b-9b3e-7666-91a8-8ddb47099182','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a2155b-9b3e-7666-91a8-8ddebb50eea0','01a2155b-9b3e-7666-91a8-8ddb47099182','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a2155b-9b48-7592-b9ed-b2b2613bd62e','01a2155b-9b16-72c6-8b38-7ede61a98365','2027-03-05T10:00:00.000000Z','nurse:01a2155b-9ac6-77f2-8f3a-dbcc34684c4f','claimed','{"by":"Nora Nurse"}');
INSERT INTO "callback_steps" VALUES('01a2155b-9b4d-739f-9ef4-5efdddbe92a4','01a2155b-9b16-72c6-8b38-7ede61a98365','2027-03-05T10:00:00.000000Z','nurse:01a2155b-9ac6-77f2-8f3a-dbcc34684c4f','reached','{"by":"Nora Nurse","next_try":null,"spoke_to":"patient","words":"comes at once"}');
INSERT INTO "callback_steps" VALUES('01a2155b-9b59-7315-8704-744398d323fc','01a2155b-9b16-72c6-8b38-7ede61a98365','2027-03-05T10:00:00.000000Z','nurse:01a2155b-9ac6-77f2-8f3a-dbcc34684c4f','settled','{"by":"Nora Nurse","outcome":"advice","words":"comes at two"}');
CREATE TABLE callbacks (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", worry TEXT NOT NULL,
            how_soon TEXT NOT NULL CHECK (how_soon IN ('now', 'today', 'this-week')),
            opened_at TEXT NOT NULL, due_at TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('waiting', 'claimed', 'settled')),
            claimed_by TEXT REFERENCES staff, claimed_at TEXT, settled_at TEXT, outcome TEXT,
            level INTEGER NOT NULL DEFAULT 0
        , settled_by TEXT REFERENCES staff, next_try_at TEXT, moved_up INTEGER NOT NULL DEFAULT 0) STRICT;
INSERT INTO "callbacks" VALUES('01a2155b-9b06-759b-8d79-a7dc22a3538b','01a2155b-9ad1-749a-8bc2-16e0cde1234f','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2155b-9b06-759b-8d79-a7df2fa8ac31','01a2155b-9ad1-749a-8bc2-16e0cde1234f','posture','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2155b-9b06-759b-8d79-a7e22400b910','01a2155b-9ad1-749a-8bc2-16e0cde1234f','silence','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2155b-9b16-72c6-8b38-7ede61a98365','01a2155b-9ad1-749a-8bc2-16e0cde1234f','infection','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','settled','01a2155b-9ac6-77f2-8f3a-dbcc34684c4f','2027-03-05T10:00:00.000000Z','2027-03-05T10:00:00.000000Z','advice',0,'01a2155b-9ac6-77f2-8f3a-dbcc34684c4f',NULL,0);
INSERT INTO "callbacks" VALUES('01a2155b-9b16-72c6-8b38-7ee1ac6b9bbc','01a2155b-9ad1-749a-8bc2-16e0cde1234f','pressure','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2155b-9b16-72c6-8b38-7ee4fbc13117','01a2155b-9ad1-749a-8bc2-16e0cde1234f','retina','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2155b-9b3d-7152-924d-093576e9d01f','01a2155b-9adc-7559-a3c4-8c0323117af7','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2155b-9b3e-7666-91a8-8ddb47099182','01a2155b-9adc-7559-a3c4-8c0323117af7','silence','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
CREATE TABLE closures (
            number INTEGER PRIMARY KEY, day TEXT NOT NULL CHECK (date(day, '+0 days') IS day),
            closed INTEGER NOT NULL CHECK (closed IN (0, 1)), why TEXT NOT NULL, recorded_by TEXT NOT NULL,
            recorded_at TEXT NOT NULL
        ) STRICT;
CREATE TABLE devices (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, token_hash TEXT NOT NULL UNIQUE,
            used_by TEXT NOT NULL, enrolled_at TEXT NOT NULL, heard_at TEXT NOT NULL, revoked_at TEXT, revoked_by TEXT
        ) STRICT;
INSERT INTO "devices" VALUES('01a2155b-9ae4-7648-80d4-0dcc02e71982','01a2155b-9ad1-749a-8bc2-16df9f307884','7c945d00f9a698d2f56624f38fdd2fcad846b0d436f7a3d105bd163ca4d53a0d','patient','2027-03-02T20:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,NULL);
CREATE TABLE enrolments (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, code_hash TEXT NOT NULL UNIQUE,
            created_by TEXT NOT NULL, created_at TEXT NOT NULL, expires_at TEXT NOT NULL,
            used_at TEXT, wrong_tries INTEGER NOT NULL DEFAULT 0
        ) STRICT;
INSERT INTO "enrolments" VALUES('01a2155b-9ad4-7712-8649-6adfec57863e','01a2155b-9ad1-749a-8bc2-16df9f307884','acc798e4738b8dbf74ba67fd99af1b6753ae7be783aa99cba64c734dc0866064','nurse:01a2155b-9ac6-77f2-8f3a-dbcc34684c4f','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z','2027-03-02T20:00:00.000000Z',0);
INSERT INTO "enrolments" VALUES('01a2155b-9add-7237-832a-dfc190d1850b','01a2155b-9adc-7559-a3c4-8c021be2124a','05f57b42db49c9572d0b87147100b6ca5933fca839ae7a036a5c4270124e5519','nurse:01a2155b-9ac6-77f2-8f3a-dbcc34684c4f','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z',NULL,0);
CREATE TABLE events (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", kind TEXT NOT NULL, at TEXT NOT NULL,
            body TEXT NOT NULL, author TEXT NOT NULL, device_id TEXT REFERENCES devices, sequence INTEGER,
            offset_minutes INTEGER, device_at TEXT, received_at TEXT NOT NULL, corrects TEXT REFERENCES events
        , reason TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000001','01a2155b-9ad1-749a-8bc2-16e0cde1234f','posture','2027-03-05T09:00:00.000000Z','{"from":"2027-03-03T08:00:00Z","position":"face-down","to":"2027-03-03T11:00:00Z"}','patient:01a2155b-9ae4-7648-80d4-0dcc02e71982','01a2155b-9ae4-7648-80d4-0dcc02e71982',1,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000002','01a2155b-9ad1-749a-8bc2-16e0cde1234f','symptoms','2027-03-05T09:00:00.000000Z','{"cannot_tell":[],"curtain":true,"pain":8,"vision":"worse","words":""}','patient:01a2155b-9ae4-7648-80d4-0dcc02e71982','01a2155b-9ae4-7648-80d4-0dcc02e71982',2,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a2155b-9b2b-71d1-8a8a-3baa5e5cd595','01a2155b-9ad1-749a-8bc2-16e0cde1234f','measures','2027-03-05T10:00:00.000000Z','{"acuity":"6/60","bubble_percent":85.0,"eye":"right","findings":[],"instrument":"applanation","iop_mmhg":41.0,"notes":""}','nurse:01a2155b-9ac6-77f2-8f3a-dbcc34684c4f',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a2155b-9b2d-74eb-8696-df8a8fc374cc','01a2155b-9ad1-749a-8bc2-16e0cde1234f','seen','2027-03-05T10:00:00.000000Z','{"visit":"day 1","visit_id":"01a2155b-9ad3-7414-8220-dd2c19a9b7dc"}','nurse:01a2155b-9ac6-77f2-8f3a-dbcc34684c4f',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a2155b-9b3c-75a0-8108-e6877ee965c9','01a2155b-9adc-7559-a3c4-8c0323117af7','measures','2027-03-05T10:00:00.000000Z','{"acuity":"HM","eye":"right","findings":[],"iop_mmhg":14.0,"notes":""}','nurse:01a2155b-9ac6-77f2-8f3a-dbcc34684c4f',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a2155b-9b4d-739f-9ef4-5efc5635ea03','01a2155b-9ad1-749a-8bc2-16e0cde1234f','heard','2027-03-05T10:00:00.000000Z','{"words":"comes at once"}','nurse:01a2155b-9ac6-77f2-8f3a-dbcc34684c4f',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
CREATE TABLE "eyes" (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, created_at TEXT NOT NULL, ended_at TEXT
        , side TEXT CHECK (side IN ('right', 'left')), followed_since TEXT, end_reason TEXT, joined_into TEXT REFERENCES eyes) STRICT;
INSERT INTO "eyes" VALUES('01a2155b-9ad1-749a-8bc2-16e0cde1234f','01a2155b-9ad1-749a-8bc2-16df9f307884','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a2155b-9ad1-749a-8bc2-16e182966734','01a2155b-9ad1-749a-8bc2-16df9f307884','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
INSERT INTO "eyes" VALUES('01a2155b-9adc-7559-a3c4-8c0323117af7','01a2155b-9adc-7559-a3c4-8c021be2124a','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a2155b-9adc-7559-a3c4-8c045b1b4d79','01a2155b-9adc-7559-a3c4-8c021be2124a','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
CREATE TABLE faults (
            what TEXT NOT NULL, about TEXT NOT NULL, words TEXT NOT NULL, first_at TEXT NOT NULL, last_at TEXT NOT NULL,
            times INTEGER NOT NULL DEFAULT 1, PRIMARY KEY (what, about)
        ) STRICT;
CREATE TABLE follow_ups (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, at TEXT NOT NULL,
            what TEXT NOT NULL CHECK (what IN ('begun', 'ended', 'resumed')), reason TEXT NOT NULL, words TEXT NOT NULL,
            recorded_by TEXT NOT NULL
        ) STRICT;
INSERT INTO "follow_ups" VALUES('01a2155b-9ad4-7712-8649-6ade6ebaf675','01a2155b-9ad1-749a-8bc2-16e0cde1234f','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a2155b-9ac6-77f2-8f3a-dbcc34684c4f');
INSERT INTO "follow_ups" VALUES('01a2155b-9add-7237-832a-dfc04b7377a7','01a2155b-9adc-7559-a3c4-8c0323117af7','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a2155b-9ac6-77f2-8f3a-dbcc34684c4f');
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
INSERT INTO "operation_records" VALUES('01a2155b-9ad3-7414-8220-dd2bdc045243','01a2155b-9ad3-7414-8220-dd2a28848e7b','right','2027-03-02T14:00:00.000000Z','c2f6','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":95.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":16.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a2155b-9ac6-77f2-8f3a-dbcc34684c4f','2027-03-02T19:00:00.000000Z','');
INSERT INTO "operation_records" VALUES('01a2155b-9add-7237-832a-dfbd4c1b2e28','01a2155b-9add-7237-832a-dfbcf1dcf035','right','2027-03-02T14:00:00.000000Z','silicone-oil','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":90.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":0.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a2155b-9ac6-77f2-8f3a-dbcc34684c4f','2027-03-02T19:00:00.000000Z','');
CREATE TABLE operations (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, created_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "operations" VALUES('01a2155b-9ad3-7414-8220-dd2a28848e7b','01a2155b-9ad1-749a-8bc2-16e0cde1234f','2027-03-02T19:00:00.000000Z');
INSERT INTO "operations" VALUES('01a2155b-9add-7237-832a-dfbcf1dcf035','01a2155b-9adc-7559-a3c4-8c0323117af7','2027-03-02T19:00:00.000000Z');
CREATE TABLE pages_opened (
            id TEXT PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, page TEXT NOT NULL, about TEXT NOT NULL
        ) STRICT;
CREATE TABLE patient_terms (term TEXT NOT NULL, patient_id TEXT NOT NULL REFERENCES patients) STRICT;
INSERT INTO "patient_terms" VALUES('s','01a2155b-9ad1-749a-8bc2-16df9f307884');
INSERT INTO "patient_terms" VALUES('9876','01a2155b-9ad1-749a-8bc2-16df9f307884');
INSERT INTO "patient_terms" VALUES('9','01a2155b-9ad1-749a-8bc2-16df9f307884');
INSERT INTO "patient_terms" VALUES('76','01a2155b-9ad1-749a-8bc2-16df9f307884');
INSERT INTO "patient_terms" VALUES('erson','01a2155b-9ad1-749a-8bc2-16df9f307884');
INSERT INTO "patient_terms" VALUES('person','01a2155b-9ad1-749a-8bc2-16df9f307884');
INSERT INTO "patient_terms" VALUES('009876','01a2155b-9ad1-749a-8bc2-16df9f307884');
INSERT INTO "patient_terms" VALUES('09876','01a2155b-9ad1-749a-8bc2-16df9f307884');
INSERT INTO "patient_terms" VALUES('pia','01a2155b-9ad1-749a-8bc2-16df9f307884');
INSERT INTO "patient_terms" VALUES('s1','01a2155b-9ad1-749a-8bc2-16df9f307884');
INSERT INTO "patient_terms" VALUES('on','01a2155b-9ad1-749a-8bc2-16df9f307884');
INSERT INTO "patient_terms" VALUES('00','01a2155b-9ad1-749a-8bc2-16df9f307884');
INSERT INTO "patient_terms" VALUES('876','01a2155b-9ad1-749a-8bc2-16df9f307884');
INSERT INTO "patient_terms" VALUES('1','01a2155b-9ad1-749a-8bc2-16df9f307884');
INSERT INTO "patient_terms" VALUES('ia','01a2155b-9ad1-749a-8bc2-16df9f307884');
INSERT INTO "patient_terms" VALUES('son','01a2155b-9ad1-749a-8bc2-16df9f307884');
INSERT INTO "patient_terms" VALUES('rson','01a2155b-9ad1-749a-8bc2-16df9f307884');
INSERT INTO "patient_terms" VALUES('s','01a2155b-9adc-7559-a3c4-8c021be2124a');
INSERT INTO "patient_terms" VALUES('other','01a2155b-9adc-7559-a3c4-8c021be2124a');
INSERT INTO "patient_terms" VALUES('9876','01a2155b-9adc-7559-a3c4-8c021be2124a');
INSERT INTO "patient_terms" VALUES('laf','01a2155b-9adc-7559-a3c4-8c021be2124a');
INSERT INTO "patient_terms" VALUES('er','01a2155b-9adc-7559-a3c4-8c021be2124a');
INSERT INTO "patient_terms" VALUES('9','01a2155b-9adc-7559-a3c4-8c021be2124a');
INSERT INTO "patient_terms" VALUES('76','01a2155b-9adc-7559-a3c4-8c021be2124a');
INSERT INTO "patient_terms" VALUES('af','01a2155b-9adc-7559-a3c4-8c021be2124a');
INSERT INTO "patient_terms" VALUES('009876','01a2155b-9adc-7559-a3c4-8c021be2124a');
INSERT INTO "patient_terms" VALUES('09876','01a2155b-9adc-7559-a3c4-8c021be2124a');
INSERT INTO "patient_terms" VALUES('s2','01a2155b-9adc-7559-a3c4-8c021be2124a');
INSERT INTO "patient_terms" VALUES('00','01a2155b-9adc-7559-a3c4-8c021be2124a');
INSERT INTO "patient_terms" VALUES('ther','01a2155b-9adc-7559-a3c4-8c021be2124a');
INSERT INTO "patient_terms" VALUES('olaf','01a2155b-9adc-7559-a3c4-8c021be2124a');
INSERT INTO "patient_terms" VALUES('her','01a2155b-9adc-7559-a3c4-8c021be2124a');
INSERT INTO "patient_terms" VALUES('2','01a2155b-9adc-7559-a3c4-8c021be2124a');
INSERT INTO "patient_terms" VALUES('876','01a2155b-9adc-7559-a3c4-8c021be2124a');
CREATE TABLE patients (
            id TEXT PRIMARY KEY, number TEXT NOT NULL UNIQUE, name TEXT NOT NULL, born_on TEXT NOT NULL,
            phone TEXT NOT NULL, language TEXT NOT NULL, created_at TEXT NOT NULL
        , joined_into TEXT REFERENCES patients, reached_by TEXT NOT NULL DEFAULT ''
            CHECK (reached_by IN ('', 'own-phone', 'carer-phone', 'no-app')), reached_since TEXT, carer_phone TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "patients" VALUES('01a2155b-9ad1-749a-8bc2-16df9f307884','S-1','Pia Person','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL,'',NULL,'');
INSERT INTO "patients" VALUES('01a2155b-9adc-7559-a3c4-8c021be2124a','S-2','Olaf Other','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL,'',NULL,'');
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
INSERT INTO "refused_events" VALUES('0195e5a0-0000-7000-8000-000000000003','01a2155b-9ad1-749a-8bc2-16e0cde1234f','01a2155b-9ae4-7648-80d4-0dcc02e71982','{"id": "0195e5a0-0000-7000-8000-000000000003", "operation": "01a2155b-9ad1-749a-8bc2-16e0cde1234f", "kind": "symptoms", "at": "2027-03-05T09:00:00Z", "offset_minutes": 60, "sequence": 3, "by": "patient", "body": {"pain": 99}}','pain: Input should be less than or equal to 10','2027-03-05T10:00:00.000000Z');
CREATE TABLE sessions (
            id TEXT PRIMARY KEY, token_hash TEXT NOT NULL UNIQUE, staff_id TEXT NOT NULL REFERENCES staff,
            begun_at TEXT NOT NULL, seen_at TEXT NOT NULL, address TEXT NOT NULL, ended_at TEXT, end_reason TEXT
        ) STRICT;
CREATE TABLE settings (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
CREATE TABLE signatures (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, fingerprint TEXT NOT NULL, signed_by TEXT NOT NULL REFERENCES staff,
            signed_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "signatures" VALUES('01a2155b-9b5b-7566-acfc-423433123514','reviews','f544271cc2c2f9b1','01a2155b-9acc-7589-9946-6df07d6f7b09','2027-03-05T10:00:00.000000Z');
CREATE TABLE staff (
            id TEXT PRIMARY KEY, name TEXT NOT NULL, email TEXT NOT NULL UNIQUE, password_hash TEXT NOT NULL, created_at TEXT NOT NULL, left_at TEXT
        , role TEXT NOT NULL DEFAULT 'nurse'
            CHECK (role IN ('nurse', 'surgeon', 'administrator')), totp_secret TEXT, totp_last INTEGER) STRICT;
INSERT INTO "staff" VALUES('01a2155b-9ac6-77f2-8f3a-dbcc34684c4f','Nora Nurse','nurse@test.invalid','$argon2id$v=19$m=8,t=1,p=1$HyNows/ERWe2IQN/cb7HpQ$27Zyrh77dkIMXjWchd8UFmlFjsegE+TS6TIxIE6kOfs','2027-03-02T14:00:00.000000Z',NULL,'nurse',NULL,NULL);
INSERT INTO "staff" VALUES('01a2155b-9acc-7589-9946-6df07d6f7b09','Sol Surgeon','surgeon@test.invalid','$argon2id$v=19$m=8,t=1,p=1$xBW4a3MdzXa1LpYMBogeBQ$597GtHsCuKFtwTJ/QPpM3lmq6MjDIiDEQmjTQesaHyw','2027-03-02T14:00:00.000000Z',NULL,'surgeon',NULL,NULL);
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
INSERT INTO "visits" VALUES('01a2155b-9ad3-7414-8220-dd2c19a9b7dc','01a2155b-9ad1-749a-8bc2-16e0cde1234f','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a2155b-9ac6-77f2-8f3a-dbcc34684c4f','2027-03-02T19:00:00.000000Z',NULL,0,'01a2155b-9ad3-7414-8220-dd2c19a9b7dc',NULL,'');
INSERT INTO "visits" VALUES('01a2155b-9ad3-7414-8220-dd2d1d9d8071','01a2155b-9ad1-749a-8bc2-16e0cde1234f','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a2155b-9ac6-77f2-8f3a-dbcc34684c4f','2027-03-02T19:00:00.000000Z',NULL,0,'01a2155b-9ad3-7414-8220-dd2d1d9d8071',NULL,'');
INSERT INTO "visits" VALUES('01a2155b-9add-7237-832a-dfbee4affacb','01a2155b-9adc-7559-a3c4-8c0323117af7','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a2155b-9ac6-77f2-8f3a-dbcc34684c4f','2027-03-02T19:00:00.000000Z',NULL,0,'01a2155b-9add-7237-832a-dfbee4affacb',NULL,'');
INSERT INTO "visits" VALUES('01a2155b-9add-7237-832a-dfbf7074db00','01a2155b-9adc-7559-a3c4-8c0323117af7','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a2155b-9ac6-77f2-8f3a-dbcc34684c4f','2027-03-02T19:00:00.000000Z',NULL,0,'01a2155b-9add-7237-832a-dfbf7074db00',NULL,'');
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
INSERT INTO "warnings" VALUES('01a2155b-9b06-759b-8d79-a7de0445cb5e','01a2155b-9ad1-749a-8bc2-16e0cde1234f','01a2155b-9b06-759b-8d79-a7dc22a3538b','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2155b-9b06-759b-8d79-a7e13c8a8223','01a2155b-9ad1-749a-8bc2-16e0cde1234f','01a2155b-9b06-759b-8d79-a7df2fa8ac31','posture-missed','posture','this-week','2027-03-03T23:00:00.000000Z',0.75,'{"date":"2027-03-03","hours":3.0,"target_hours":12}','{"share":0.5}','CP','Only 3 of 12 hours of posturing on 2027-03-03.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2155b-9b06-759b-8d79-a7e4b4cdd2bd','01a2155b-9ad1-749a-8bc2-16e0cde1234f','01a2155b-9b06-759b-8d79-a7e22400b910','silent-while-posturing','silence','this-week','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2155b-9b07-7469-af95-a6c8b09ae206','01a2155b-9ad1-749a-8bc2-16e0cde1234f','01a2155b-9b06-759b-8d79-a7e22400b910','no-posture-entry','silence','this-week','2027-03-04T23:00:00.000000Z',1.0,'{"date":"2027-03-04"}','{}','CP','Nothing logged for posturing on 2027-03-04.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2155b-9b16-72c6-8b38-7ee02607cfe6','01a2155b-9ad1-749a-8bc2-16e0cde1234f','01a2155b-9b16-72c6-8b38-7ede61a98365','infection-suspected','infection','now','2027-03-05T09:00:00.000000Z',30.0,'{"pain":8,"vision":"worse"}','{"count":2,"signs":["pain>=4","vision=worse","redness=worse","discharge"]}','BOSU','Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2155b-9b16-72c6-8b38-7ee3092a5621','01a2155b-9ad1-749a-8bc2-16e0cde1234f','01a2155b-9b16-72c6-8b38-7ee1ac6b9bbc','severe-pain','pressure','now','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=7"]}','VRS','Severe pain (8 of 10): pressure and infection must be ruled out.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2155b-9b17-7471-8956-7f6edac62015','01a2155b-9ad1-749a-8bc2-16e0cde1234f','01a2155b-9b16-72c6-8b38-7ee4fbc13117','curtain','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"curtain":true,"pain":8}','{"count":1,"signs":["curtain"]}','RD14','A curtain or shadow that does not move with the bubble: new detachment until shown otherwise.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2155b-9b17-7471-8956-7f70edde67ff','01a2155b-9ad1-749a-8bc2-16e0cde1234f','01a2155b-9b16-72c6-8b38-7ee1ac6b9bbc','pain','pressure','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=5"]}','VRS','Pain of 8 of 10, beyond what simple painkillers usually hold.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2155b-9b17-7471-8956-7f72ad37e0f1','01a2155b-9ad1-749a-8bc2-16e0cde1234f','01a2155b-9b16-72c6-8b38-7ee4fbc13117','vision-worse','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','Hol09','The patient says that the vision fell.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2155b-9b17-7471-8956-7f748975943c','01a2155b-9ad1-749a-8bc2-16e0cde1234f','01a2155b-9b16-72c6-8b38-7ee4fbc13117','vision-said-worse','retina','this-week','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','Hol09','The patient said that the vision fell. Ask again, whatever the second look said.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2155b-9b34-7099-8432-a4215ab812fd','01a2155b-9ad1-749a-8bc2-16e0cde1234f','01a2155b-9b16-72c6-8b38-7ee1ac6b9bbc','pressure-severe','pressure','now','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":40}','Bern12','Pressure 41 mmHg, at or above 40.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2155b-9b34-7099-8432-a4239f1e0e00','01a2155b-9ad1-749a-8bc2-16e0cde1234f','01a2155b-9b16-72c6-8b38-7ee1ac6b9bbc','pressure-spike','pressure','today','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":30}','Bern12','Pressure 41 mmHg, at or above 30.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2155b-9b35-7441-9860-c100f3a0767a','01a2155b-9ad1-749a-8bc2-16e0cde1234f','01a2155b-9b16-72c6-8b38-7ee1ac6b9bbc','pressure-raised','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":24}','NICE','Pressure 41 mmHg, at or above 24.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2155b-9b35-7441-9860-c102d9da4ccd','01a2155b-9ad1-749a-8bc2-16e0cde1234f','01a2155b-9b16-72c6-8b38-7ee1ac6b9bbc','pressure-rise','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"baseline_mmhg":15,"instrument":"applanation","iop_mmhg":41.0,"pain":null,"risen_mmhg":26.0}','{"mmhg":24,"rise_mmhg":10}','LOH19','Pressure 41 mmHg, 26 above this eye’s own 15.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2155b-9b35-7441-9860-c1044449a762','01a2155b-9ad1-749a-8bc2-16e0cde1234f','01a2155b-9b16-72c6-8b38-7ee1ac6b9bbc','pressure-rising','pressure','this-week','2027-03-05T10:00:00.000000Z',26.0,'{"instrument":"applanation","iop_mmhg":41.0,"moved_mmhg":26.0,"pain":null,"usual_mmhg":15}','{"by_mmhg":5,"direction":"up","mmhg":18}','SIO','Pressure 41 mmHg, 26 above what is usual for this eye (15).','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2155b-9b3d-7152-924d-09372f608897','01a2155b-9adc-7559-a3c4-8c0323117af7','01a2155b-9b3d-7152-924d-093576e9d01f','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2155b-9b3e-7666-91a8-8ddd24497222','01a2155b-9adc-7559-a3c4-8c0323117af7','01a2155b-9b3e-7666-91a8-8ddb47099182','no-posture-entry','silence','this-week','2027-03-03T23:00:00.000000Z',1.0,'{"date":"2027-03-03"}','{}','CP','Nothing logged for posturing on 2027-03-03.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2155b-9b3e-7666-91a8-8ddf02369356','01a2155b-9adc-7559-a3c4-8c0323117af7','01a2155b-9b3e-7666-91a8-8ddb47099182','silent-while-posturing','silence','this-week','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
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
CREATE INDEX sessions_of_staff ON sessions (staff_id, ended_at);
CREATE INDEX pages_opened_by_time ON pages_opened (at);
CREATE INDEX pages_opened_about ON pages_opened (about, at);
CREATE TRIGGER pages_opened_keeps_update BEFORE UPDATE ON pages_opened BEGIN SELECT RAISE(ABORT, 'pages_opened is append-only: record a correction instead'); END;
CREATE TRIGGER pages_opened_keeps_delete BEFORE DELETE ON pages_opened BEGIN SELECT RAISE(ABORT, 'pages_opened is append-only: record a correction instead'); END;
COMMIT;
