// Made by schemas/generate.mjs with ajv; do not edit.
var oe=(a,s)=>()=>{try{return s||a((s={exports:{}}).exports,s),s.exports}catch(h){throw s=0,h}};var te=oe(ee=>{"use strict";Object.defineProperty(ee,"__esModule",{value:!0});function ie(a){let s=a.length,h=0,f=0,o;for(;f<s;)h++,o=a.charCodeAt(f++),o>=55296&&
o<=56319&&f<s&&(o=a.charCodeAt(f),(o&64512)===56320&&f++);return h}ee.default=ie;ie.code=""});var Ee=me,le={type:"object",additionalProperties:!1,required:["version"],properties:{version:{$ref:"#/definitions/version"},title:{type:"string",maxLength:200},
stock:{type:"string",minLength:1},film:{$ref:"#/definitions/film"},format:{$ref:"#/definitions/format"},exposed:{$ref:"#/definitions/exposed"},iptc:{$ref:"#/def\
initions/iptc"},scans:{type:"string",minLength:1},light:{$ref:"#/definitions/light"},negative:{$ref:"#/definitions/negative"},positive:{$ref:"#/definitions/posi\
tive"},output:{$ref:"#/definitions/outputs"},frames:{type:"object",patternProperties:{"^[0-9]{1,3}[A-Z]?$":{$ref:"#/definitions/frame"}},additionalProperties:!1},
note:{$ref:"#/definitions/note"},fingerprints:{type:"object",additionalProperties:{$ref:"#/definitions/fingerprint"}},automatic:{$ref:"#/definitions/automatic"}}},
x=Object.prototype.hasOwnProperty,y=te().default,ue={enum:[2,1]};function I(a,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=a}={}){let e=null,
t=0;if(!(a===2||a===1)){let i={instancePath:s,schemaPath:"#/enum",keyword:"enum",params:{allowedValues:ue.enum}};e===null?e=[i]:e.push(i),t++}return I.errors=e,
t===0}var fe={enum:["colour-negative","black-and-white-negative","slide"]};function A(a,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=a}={}){let e=null,
t=0;if(!(a==="colour-negative"||a==="black-and-white-negative"||a==="slide")){let i={instancePath:s,schemaPath:"#/enum",keyword:"enum",params:{allowedValues:fe.
enum}};e===null?e=[i]:e.push(i),t++}return A.errors=e,t===0}var he={type:["string","array"],items:{type:"number",minimum:1,maximum:1e3},minItems:2,maxItems:2,pattern:"\
^(?:135|135-half|24x24|24x65|645|6x6|6x7|6x8|6x9|6x12|6x17|127-4x3|127-4x4|127-4x6|126|110|cine-35|cine-16|cine-16w|cine-9\\.5|cine-8|cine-8s|4x5in|5x7in|8x10in)\
$",examples:["135","135-half","24x24","24x65","645","6x6","6x7","6x8","6x9","6x12","6x17","127-4x3","127-4x4","127-4x6","126","110","cine-35","cine-16","cine-16\
w","cine-9.5","cine-8","cine-8s","4x5in","5x7in","8x10in"]},ce=new RegExp("^(?:135|135-half|24x24|24x65|645|6x6|6x7|6x8|6x9|6x12|6x17|127-4x3|127-4x4|127-4x6|12\
6|110|cine-35|cine-16|cine-16w|cine-9\\.5|cine-8|cine-8s|4x5in|5x7in|8x10in)$","u");function D(a,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=a}={}){
let e=null,t=0;if(typeof a!="string"&&!Array.isArray(a)){let i={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:he.type}};e===null?e=[i]:e.push(i),
t++}if(typeof a=="string"&&!ce.test(a)){let i={instancePath:s,schemaPath:"#/pattern",keyword:"pattern",params:{pattern:"^(?:135|135-half|24x24|24x65|645|6x6|6x7\
|6x8|6x9|6x12|6x17|127-4x3|127-4x4|127-4x6|126|110|cine-35|cine-16|cine-16w|cine-9\\.5|cine-8|cine-8s|4x5in|5x7in|8x10in)$"}};e===null?e=[i]:e.push(i),t++}if(Array.
isArray(a)){if(a.length>2){let r={instancePath:s,schemaPath:"#/maxItems",keyword:"maxItems",params:{limit:2}};e===null?e=[r]:e.push(r),t++}if(a.length<2){let r={
instancePath:s,schemaPath:"#/minItems",keyword:"minItems",params:{limit:2}};e===null?e=[r]:e.push(r),t++}let i=a.length;for(let r=0;r<i;r++){let n=a[r];if(typeof n==
"number"&&isFinite(n)){if(n>1e3||isNaN(n)){let m={instancePath:s+"/"+r,schemaPath:"#/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:1e3}};e===null?
e=[m]:e.push(m),t++}if(n<1||isNaN(n)){let m={instancePath:s+"/"+r,schemaPath:"#/items/minimum",keyword:"minimum",params:{comparison:">=",limit:1}};e===null?e=[m]:
e.push(m),t++}}else{let m={instancePath:s+"/"+r,schemaPath:"#/items/type",keyword:"type",params:{type:"number"}};e===null?e=[m]:e.push(m),t++}}}return D.errors=
e,t===0}var se={type:"object",additionalProperties:!1,properties:{camera:{type:"string",maxLength:200},lens:{type:"string",maxLength:200},date:{type:"string",pattern:"\
^[0-9]{4}-[0-9]{2}-[0-9]{2}$"},time:{type:"string",pattern:"^([01][0-9]|2[0-3]):[0-5][0-9](:[0-5][0-9])?([+-](0[0-9]|1[0-4]):[0-5][0-9])?$"},rated:{type:"number",
minimum:.1,maximum:1e5},push:{type:"number",minimum:-5,maximum:5},place:{type:"string",maxLength:200},coordinates:{type:"array",minItems:2,maxItems:2,items:[{type:"\
number",minimum:-90,maximum:90},{type:"number",minimum:-180,maximum:180}]},focal:{type:"number",minimum:.5,maximum:2e4},aperture:{type:"number",minimum:.5,maximum:2e3},
shutter:{type:["number","string"],minimum:1e-5,maximum:1e6,pattern:"^1/[1-9][0-9]{0,5}$"},filter:{type:"string",maxLength:200},developer:{type:"string",maxLength:200}}},
ye=new RegExp("^[0-9]{4}-[0-9]{2}-[0-9]{2}$","u"),de=new RegExp("^([01][0-9]|2[0-3]):[0-5][0-9](:[0-5][0-9])?([+-](0[0-9]|1[0-4]):[0-5][0-9])?$","u"),Pe=new RegExp(
"^1/[1-9][0-9]{0,5}$","u");function j(a,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=a}={}){let e=null,t=0;if(a&&typeof a=="object"&&!Array.isArray(
a)){for(let i in a)if(!x.call(se.properties,i)){let r={instancePath:s,schemaPath:"#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:i}};
e===null?e=[r]:e.push(r),t++}if(a.camera!==void 0){let i=a.camera;if(typeof i=="string"){if(y(i)>200){let r={instancePath:s+"/camera",schemaPath:"#/properties/c\
amera/maxLength",keyword:"maxLength",params:{limit:200}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/camera",schemaPath:"#/properties/camera/type",
keyword:"type",params:{type:"string"}};e===null?e=[r]:e.push(r),t++}}if(a.lens!==void 0){let i=a.lens;if(typeof i=="string"){if(y(i)>200){let r={instancePath:s+
"/lens",schemaPath:"#/properties/lens/maxLength",keyword:"maxLength",params:{limit:200}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/lens",schemaPath:"\
#/properties/lens/type",keyword:"type",params:{type:"string"}};e===null?e=[r]:e.push(r),t++}}if(a.date!==void 0){let i=a.date;if(typeof i=="string"){if(!ye.test(
i)){let r={instancePath:s+"/date",schemaPath:"#/properties/date/pattern",keyword:"pattern",params:{pattern:"^[0-9]{4}-[0-9]{2}-[0-9]{2}$"}};e===null?e=[r]:e.push(
r),t++}}else{let r={instancePath:s+"/date",schemaPath:"#/properties/date/type",keyword:"type",params:{type:"string"}};e===null?e=[r]:e.push(r),t++}}if(a.time!==
void 0){let i=a.time;if(typeof i=="string"){if(!de.test(i)){let r={instancePath:s+"/time",schemaPath:"#/properties/time/pattern",keyword:"pattern",params:{pattern:"\
^([01][0-9]|2[0-3]):[0-5][0-9](:[0-5][0-9])?([+-](0[0-9]|1[0-4]):[0-5][0-9])?$"}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/time",schemaPath:"#\
/properties/time/type",keyword:"type",params:{type:"string"}};e===null?e=[r]:e.push(r),t++}}if(a.rated!==void 0){let i=a.rated;if(typeof i=="number"&&isFinite(i)){
if(i>1e5||isNaN(i)){let r={instancePath:s+"/rated",schemaPath:"#/properties/rated/maximum",keyword:"maximum",params:{comparison:"<=",limit:1e5}};e===null?e=[r]:
e.push(r),t++}if(i<.1||isNaN(i)){let r={instancePath:s+"/rated",schemaPath:"#/properties/rated/minimum",keyword:"minimum",params:{comparison:">=",limit:.1}};e===
null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/rated",schemaPath:"#/properties/rated/type",keyword:"type",params:{type:"number"}};e===null?e=[r]:e.push(
r),t++}}if(a.push!==void 0){let i=a.push;if(typeof i=="number"&&isFinite(i)){if(i>5||isNaN(i)){let r={instancePath:s+"/push",schemaPath:"#/properties/push/maxim\
um",keyword:"maximum",params:{comparison:"<=",limit:5}};e===null?e=[r]:e.push(r),t++}if(i<-5||isNaN(i)){let r={instancePath:s+"/push",schemaPath:"#/properties/p\
ush/minimum",keyword:"minimum",params:{comparison:">=",limit:-5}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/push",schemaPath:"#/properties/push\
/type",keyword:"type",params:{type:"number"}};e===null?e=[r]:e.push(r),t++}}if(a.place!==void 0){let i=a.place;if(typeof i=="string"){if(y(i)>200){let r={instancePath:s+
"/place",schemaPath:"#/properties/place/maxLength",keyword:"maxLength",params:{limit:200}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/place",schemaPath:"\
#/properties/place/type",keyword:"type",params:{type:"string"}};e===null?e=[r]:e.push(r),t++}}if(a.coordinates!==void 0){let i=a.coordinates;if(Array.isArray(i)){
if(i.length>2){let n={instancePath:s+"/coordinates",schemaPath:"#/properties/coordinates/maxItems",keyword:"maxItems",params:{limit:2}};e===null?e=[n]:e.push(n),
t++}if(i.length<2){let n={instancePath:s+"/coordinates",schemaPath:"#/properties/coordinates/minItems",keyword:"minItems",params:{limit:2}};e===null?e=[n]:e.push(
n),t++}let r=i.length;if(r>0){let n=i[0];if(typeof n=="number"&&isFinite(n)){if(n>90||isNaN(n)){let m={instancePath:s+"/coordinates/0",schemaPath:"#/properties/\
coordinates/items/0/maximum",keyword:"maximum",params:{comparison:"<=",limit:90}};e===null?e=[m]:e.push(m),t++}if(n<-90||isNaN(n)){let m={instancePath:s+"/coord\
inates/0",schemaPath:"#/properties/coordinates/items/0/minimum",keyword:"minimum",params:{comparison:">=",limit:-90}};e===null?e=[m]:e.push(m),t++}}else{let m={
instancePath:s+"/coordinates/0",schemaPath:"#/properties/coordinates/items/0/type",keyword:"type",params:{type:"number"}};e===null?e=[m]:e.push(m),t++}}if(r>1){
let n=i[1];if(typeof n=="number"&&isFinite(n)){if(n>180||isNaN(n)){let m={instancePath:s+"/coordinates/1",schemaPath:"#/properties/coordinates/items/1/maximum",
keyword:"maximum",params:{comparison:"<=",limit:180}};e===null?e=[m]:e.push(m),t++}if(n<-180||isNaN(n)){let m={instancePath:s+"/coordinates/1",schemaPath:"#/pro\
perties/coordinates/items/1/minimum",keyword:"minimum",params:{comparison:">=",limit:-180}};e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:s+"/coordinat\
es/1",schemaPath:"#/properties/coordinates/items/1/type",keyword:"type",params:{type:"number"}};e===null?e=[m]:e.push(m),t++}}}else{let r={instancePath:s+"/coor\
dinates",schemaPath:"#/properties/coordinates/type",keyword:"type",params:{type:"array"}};e===null?e=[r]:e.push(r),t++}}if(a.focal!==void 0){let i=a.focal;if(typeof i==
"number"&&isFinite(i)){if(i>2e4||isNaN(i)){let r={instancePath:s+"/focal",schemaPath:"#/properties/focal/maximum",keyword:"maximum",params:{comparison:"<=",limit:2e4}};
e===null?e=[r]:e.push(r),t++}if(i<.5||isNaN(i)){let r={instancePath:s+"/focal",schemaPath:"#/properties/focal/minimum",keyword:"minimum",params:{comparison:">=",
limit:.5}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/focal",schemaPath:"#/properties/focal/type",keyword:"type",params:{type:"number"}};e===null?
e=[r]:e.push(r),t++}}if(a.aperture!==void 0){let i=a.aperture;if(typeof i=="number"&&isFinite(i)){if(i>2e3||isNaN(i)){let r={instancePath:s+"/aperture",schemaPath:"\
#/properties/aperture/maximum",keyword:"maximum",params:{comparison:"<=",limit:2e3}};e===null?e=[r]:e.push(r),t++}if(i<.5||isNaN(i)){let r={instancePath:s+"/ape\
rture",schemaPath:"#/properties/aperture/minimum",keyword:"minimum",params:{comparison:">=",limit:.5}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+
"/aperture",schemaPath:"#/properties/aperture/type",keyword:"type",params:{type:"number"}};e===null?e=[r]:e.push(r),t++}}if(a.shutter!==void 0){let i=a.shutter;
if(!(typeof i=="number"&&isFinite(i))&&typeof i!="string"){let r={instancePath:s+"/shutter",schemaPath:"#/properties/shutter/type",keyword:"type",params:{type:se.
properties.shutter.type}};e===null?e=[r]:e.push(r),t++}if(typeof i=="number"&&isFinite(i)){if(i>1e6||isNaN(i)){let r={instancePath:s+"/shutter",schemaPath:"#/pr\
operties/shutter/maximum",keyword:"maximum",params:{comparison:"<=",limit:1e6}};e===null?e=[r]:e.push(r),t++}if(i<1e-5||isNaN(i)){let r={instancePath:s+"/shutte\
r",schemaPath:"#/properties/shutter/minimum",keyword:"minimum",params:{comparison:">=",limit:1e-5}};e===null?e=[r]:e.push(r),t++}}if(typeof i=="string"&&!Pe.test(
i)){let r={instancePath:s+"/shutter",schemaPath:"#/properties/shutter/pattern",keyword:"pattern",params:{pattern:"^1/[1-9][0-9]{0,5}$"}};e===null?e=[r]:e.push(r),
t++}}if(a.filter!==void 0){let i=a.filter;if(typeof i=="string"){if(y(i)>200){let r={instancePath:s+"/filter",schemaPath:"#/properties/filter/maxLength",keyword:"\
maxLength",params:{limit:200}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/filter",schemaPath:"#/properties/filter/type",keyword:"type",params:{type:"\
string"}};e===null?e=[r]:e.push(r),t++}}if(a.developer!==void 0){let i=a.developer;if(typeof i=="string"){if(y(i)>200){let r={instancePath:s+"/developer",schemaPath:"\
#/properties/developer/maxLength",keyword:"maxLength",params:{limit:200}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/developer",schemaPath:"#/pr\
operties/developer/type",keyword:"type",params:{type:"string"}};e===null?e=[r]:e.push(r),t++}}}else{let i={instancePath:s,schemaPath:"#/type",keyword:"type",params:{
type:"object"}};e===null?e=[i]:e.push(i),t++}return j.errors=e,t===0}function $(a,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=a}={}){let e=null,t=0;if(a&&typeof a=="object"&&!Array.isArray(a)){for(let i in a)if(!(i===
"caption"||i==="keywords"||i==="creator"||i==="copyright")){let r={instancePath:s,schemaPath:"#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:i}};
e===null?e=[r]:e.push(r),t++}if(a.caption!==void 0){let i=a.caption;if(typeof i=="string"){if(y(i)>2e3){let r={instancePath:s+"/caption",schemaPath:"#/propertie\
s/caption/maxLength",keyword:"maxLength",params:{limit:2e3}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/caption",schemaPath:"#/properties/captio\
n/type",keyword:"type",params:{type:"string"}};e===null?e=[r]:e.push(r),t++}}if(a.keywords!==void 0){let i=a.keywords;if(Array.isArray(i)){if(i.length>100){let n={
instancePath:s+"/keywords",schemaPath:"#/properties/keywords/maxItems",keyword:"maxItems",params:{limit:100}};e===null?e=[n]:e.push(n),t++}let r=i.length;for(let n=0;n<
r;n++){let m=i[n];if(typeof m=="string"){if(y(m)>64){let p={instancePath:s+"/keywords/"+n,schemaPath:"#/properties/keywords/items/maxLength",keyword:"maxLength",
params:{limit:64}};e===null?e=[p]:e.push(p),t++}if(y(m)<1){let p={instancePath:s+"/keywords/"+n,schemaPath:"#/properties/keywords/items/minLength",keyword:"minL\
ength",params:{limit:1}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:s+"/keywords/"+n,schemaPath:"#/properties/keywords/items/type",keyword:"type",params:{
type:"string"}};e===null?e=[p]:e.push(p),t++}}}else{let r={instancePath:s+"/keywords",schemaPath:"#/properties/keywords/type",keyword:"type",params:{type:"array"}};
e===null?e=[r]:e.push(r),t++}}if(a.creator!==void 0){let i=a.creator;if(typeof i=="string"){if(y(i)>200){let r={instancePath:s+"/creator",schemaPath:"#/properti\
es/creator/maxLength",keyword:"maxLength",params:{limit:200}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/creator",schemaPath:"#/properties/creat\
or/type",keyword:"type",params:{type:"string"}};e===null?e=[r]:e.push(r),t++}}if(a.copyright!==void 0){let i=a.copyright;if(typeof i=="string"){if(y(i)>200){let r={
instancePath:s+"/copyright",schemaPath:"#/properties/copyright/maxLength",keyword:"maxLength",params:{limit:200}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+
"/copyright",schemaPath:"#/properties/copyright/type",keyword:"type",params:{type:"string"}};e===null?e=[r]:e.push(r),t++}}}else{let i={instancePath:s,schemaPath:"\
#/type",keyword:"type",params:{type:"object"}};e===null?e=[i]:e.push(i),t++}return $.errors=e,t===0}var re={type:"object",additionalProperties:!1,properties:{blank:{
type:["string","object"],minLength:1,additionalProperties:!1,required:["red","green","blue"],properties:{red:{type:"string",minLength:1},green:{type:"string",minLength:1},
blue:{type:"string",minLength:1}}},flare:{type:["number","array"],minimum:0,maximum:.2,items:{type:"number",minimum:0,maximum:.2},minItems:3,maxItems:3},times:{
enum:["written","nominal"]},spots:{$ref:"#/definitions/spots"},lens:{$ref:"#/definitions/lens"}}};var ge={type:["array","object"],minItems:3,maxItems:3,items:[{type:"number",minimum:0,maximum:1},{type:"number",minimum:0,maximum:4},{type:"number",minimum:1e-5,
maximum:.1}],required:["line","width"],additionalProperties:!1,properties:{line:{type:"array",minItems:2,maxItems:200,items:{type:"array",minItems:2,maxItems:2,
items:[{type:"number",minimum:0,maximum:1},{type:"number",minimum:0,maximum:4}]}},width:{type:"number",minimum:2e-5,maximum:.05}}};function V(a,{instancePath:s="",
parentData:h,parentDataProperty:f,rootData:o=a}={}){let e=null,t=0;if(!a||typeof a!="object"){let i={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:ge.
type}};e===null?e=[i]:e.push(i),t++}if(Array.isArray(a)){if(a.length>3){let r={instancePath:s,schemaPath:"#/maxItems",keyword:"maxItems",params:{limit:3}};e===null?
e=[r]:e.push(r),t++}if(a.length<3){let r={instancePath:s,schemaPath:"#/minItems",keyword:"minItems",params:{limit:3}};e===null?e=[r]:e.push(r),t++}let i=a.length;
if(i>0){let r=a[0];if(typeof r=="number"&&isFinite(r)){if(r>1||isNaN(r)){let n={instancePath:s+"/0",schemaPath:"#/items/0/maximum",keyword:"maximum",params:{comparison:"\
<=",limit:1}};e===null?e=[n]:e.push(n),t++}if(r<0||isNaN(r)){let n={instancePath:s+"/0",schemaPath:"#/items/0/minimum",keyword:"minimum",params:{comparison:">=",
limit:0}};e===null?e=[n]:e.push(n),t++}}else{let n={instancePath:s+"/0",schemaPath:"#/items/0/type",keyword:"type",params:{type:"number"}};e===null?e=[n]:e.push(
n),t++}}if(i>1){let r=a[1];if(typeof r=="number"&&isFinite(r)){if(r>4||isNaN(r)){let n={instancePath:s+"/1",schemaPath:"#/items/1/maximum",keyword:"maximum",params:{
comparison:"<=",limit:4}};e===null?e=[n]:e.push(n),t++}if(r<0||isNaN(r)){let n={instancePath:s+"/1",schemaPath:"#/items/1/minimum",keyword:"minimum",params:{comparison:"\
>=",limit:0}};e===null?e=[n]:e.push(n),t++}}else{let n={instancePath:s+"/1",schemaPath:"#/items/1/type",keyword:"type",params:{type:"number"}};e===null?e=[n]:e.
push(n),t++}}if(i>2){let r=a[2];if(typeof r=="number"&&isFinite(r)){if(r>.1||isNaN(r)){let n={instancePath:s+"/2",schemaPath:"#/items/2/maximum",keyword:"maximu\
m",params:{comparison:"<=",limit:.1}};e===null?e=[n]:e.push(n),t++}if(r<1e-5||isNaN(r)){let n={instancePath:s+"/2",schemaPath:"#/items/2/minimum",keyword:"minim\
um",params:{comparison:">=",limit:1e-5}};e===null?e=[n]:e.push(n),t++}}else{let n={instancePath:s+"/2",schemaPath:"#/items/2/type",keyword:"type",params:{type:"\
number"}};e===null?e=[n]:e.push(n),t++}}}if(a&&typeof a=="object"&&!Array.isArray(a)){if(a.line===void 0){let i={instancePath:s,schemaPath:"#/required",keyword:"\
required",params:{missingProperty:"line"}};e===null?e=[i]:e.push(i),t++}if(a.width===void 0){let i={instancePath:s,schemaPath:"#/required",keyword:"required",params:{
missingProperty:"width"}};e===null?e=[i]:e.push(i),t++}for(let i in a)if(!(i==="line"||i==="width")){let r={instancePath:s,schemaPath:"#/additionalProperties",keyword:"\
additionalProperties",params:{additionalProperty:i}};e===null?e=[r]:e.push(r),t++}if(a.line!==void 0){let i=a.line;if(Array.isArray(i)){if(i.length>200){let n={
instancePath:s+"/line",schemaPath:"#/properties/line/maxItems",keyword:"maxItems",params:{limit:200}};e===null?e=[n]:e.push(n),t++}if(i.length<2){let n={instancePath:s+
"/line",schemaPath:"#/properties/line/minItems",keyword:"minItems",params:{limit:2}};e===null?e=[n]:e.push(n),t++}let r=i.length;for(let n=0;n<r;n++){let m=i[n];
if(Array.isArray(m)){if(m.length>2){let l={instancePath:s+"/line/"+n,schemaPath:"#/properties/line/items/maxItems",keyword:"maxItems",params:{limit:2}};e===null?
e=[l]:e.push(l),t++}if(m.length<2){let l={instancePath:s+"/line/"+n,schemaPath:"#/properties/line/items/minItems",keyword:"minItems",params:{limit:2}};e===null?
e=[l]:e.push(l),t++}let p=m.length;if(p>0){let l=m[0];if(typeof l=="number"&&isFinite(l)){if(l>1||isNaN(l)){let u={instancePath:s+"/line/"+n+"/0",schemaPath:"#/\
properties/line/items/items/0/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[u]:e.push(u),t++}if(l<0||isNaN(l)){let u={instancePath:s+
"/line/"+n+"/0",schemaPath:"#/properties/line/items/items/0/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[u]:e.push(u),t++}}else{let u={
instancePath:s+"/line/"+n+"/0",schemaPath:"#/properties/line/items/items/0/type",keyword:"type",params:{type:"number"}};e===null?e=[u]:e.push(u),t++}}if(p>1){let l=m[1];
if(typeof l=="number"&&isFinite(l)){if(l>4||isNaN(l)){let u={instancePath:s+"/line/"+n+"/1",schemaPath:"#/properties/line/items/items/1/maximum",keyword:"maximu\
m",params:{comparison:"<=",limit:4}};e===null?e=[u]:e.push(u),t++}if(l<0||isNaN(l)){let u={instancePath:s+"/line/"+n+"/1",schemaPath:"#/properties/line/items/it\
ems/1/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[u]:e.push(u),t++}}else{let u={instancePath:s+"/line/"+n+"/1",schemaPath:"#/proper\
ties/line/items/items/1/type",keyword:"type",params:{type:"number"}};e===null?e=[u]:e.push(u),t++}}}else{let p={instancePath:s+"/line/"+n,schemaPath:"#/properti\
es/line/items/type",keyword:"type",params:{type:"array"}};e===null?e=[p]:e.push(p),t++}}}else{let r={instancePath:s+"/line",schemaPath:"#/properties/line/type",
keyword:"type",params:{type:"array"}};e===null?e=[r]:e.push(r),t++}}if(a.width!==void 0){let i=a.width;if(typeof i=="number"&&isFinite(i)){if(i>.05||isNaN(i)){let r={
instancePath:s+"/width",schemaPath:"#/properties/width/maximum",keyword:"maximum",params:{comparison:"<=",limit:.05}};e===null?e=[r]:e.push(r),t++}if(i<2e-5||isNaN(
i)){let r={instancePath:s+"/width",schemaPath:"#/properties/width/minimum",keyword:"minimum",params:{comparison:">=",limit:2e-5}};e===null?e=[r]:e.push(r),t++}}else{
let r={instancePath:s+"/width",schemaPath:"#/properties/width/type",keyword:"type",params:{type:"number"}};e===null?e=[r]:e.push(r),t++}}}return V.errors=e,t===
0}function L(a,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=a}={}){let e=null,t=0;if(Array.isArray(a)){if(a.length>5e3){let r={instancePath:s,
schemaPath:"#/maxItems",keyword:"maxItems",params:{limit:5e3}};e===null?e=[r]:e.push(r),t++}let i=a.length;for(let r=0;r<i;r++)V(a[r],{instancePath:s+"/"+r,parentData:a,
parentDataProperty:r,rootData:o})||(e=e===null?V.errors:e.concat(V.errors),t=e.length)}else{let i={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"\
array"}};e===null?e=[i]:e.push(i),t++}return L.errors=e,t===0}function N(a,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=a}={}){let e=null,t=0;if(Array.isArray(a)){if(a.length>2){let r={instancePath:s,schemaPath:"\
#/maxItems",keyword:"maxItems",params:{limit:2}};e===null?e=[r]:e.push(r),t++}if(a.length<1){let r={instancePath:s,schemaPath:"#/minItems",keyword:"minItems",params:{
limit:1}};e===null?e=[r]:e.push(r),t++}let i=a.length;for(let r=0;r<i;r++){let n=a[r];if(typeof n=="number"&&isFinite(n)){if(n>.02||isNaN(n)){let m={instancePath:s+
"/"+r,schemaPath:"#/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:.02}};e===null?e=[m]:e.push(m),t++}if(n<-.02||isNaN(n)){let m={instancePath:s+
"/"+r,schemaPath:"#/items/minimum",keyword:"minimum",params:{comparison:">=",limit:-.02}};e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:s+"/"+r,schemaPath:"\
#/items/type",keyword:"type",params:{type:"number"}};e===null?e=[m]:e.push(m),t++}}}else{let i={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"\
array"}};e===null?e=[i]:e.push(i),t++}return N.errors=e,t===0}function C(a,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=a}={}){let e=null,t=0;if(a&&typeof a=="object"&&!Array.isArray(a)){for(let i in a)if(!(i===
"radial"||i==="oval"||i==="gradient")){let r={instancePath:s,schemaPath:"#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:i}};e===
null?e=[r]:e.push(r),t++}if(a.radial!==void 0){let i=a.radial;if(Array.isArray(i)){if(i.length>2){let n={instancePath:s+"/radial",schemaPath:"#/properties/radia\
l/maxItems",keyword:"maxItems",params:{limit:2}};e===null?e=[n]:e.push(n),t++}if(i.length<1){let n={instancePath:s+"/radial",schemaPath:"#/properties/radial/min\
Items",keyword:"minItems",params:{limit:1}};e===null?e=[n]:e.push(n),t++}let r=i.length;for(let n=0;n<r;n++){let m=i[n];if(typeof m=="number"&&isFinite(m)){if(m>
4||isNaN(m)){let p={instancePath:s+"/radial/"+n,schemaPath:"#/properties/radial/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:4}};e===null?e=[p]:
e.push(p),t++}if(m<-4||isNaN(m)){let p={instancePath:s+"/radial/"+n,schemaPath:"#/properties/radial/items/minimum",keyword:"minimum",params:{comparison:">=",limit:-4}};
e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:s+"/radial/"+n,schemaPath:"#/properties/radial/items/type",keyword:"type",params:{type:"number"}};e===null?
e=[p]:e.push(p),t++}}}else{let r={instancePath:s+"/radial",schemaPath:"#/properties/radial/type",keyword:"type",params:{type:"array"}};e===null?e=[r]:e.push(r),
t++}}if(a.oval!==void 0){let i=a.oval;if(typeof i=="number"&&isFinite(i)){if(i>4||isNaN(i)){let r={instancePath:s+"/oval",schemaPath:"#/properties/oval/maximum",
keyword:"maximum",params:{comparison:"<=",limit:4}};e===null?e=[r]:e.push(r),t++}if(i<-4||isNaN(i)){let r={instancePath:s+"/oval",schemaPath:"#/properties/oval/\
minimum",keyword:"minimum",params:{comparison:">=",limit:-4}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/oval",schemaPath:"#/properties/oval/typ\
e",keyword:"type",params:{type:"number"}};e===null?e=[r]:e.push(r),t++}}if(a.gradient!==void 0){let i=a.gradient;if(Array.isArray(i)){if(i.length>2){let n={instancePath:s+
"/gradient",schemaPath:"#/properties/gradient/maxItems",keyword:"maxItems",params:{limit:2}};e===null?e=[n]:e.push(n),t++}if(i.length<2){let n={instancePath:s+"\
/gradient",schemaPath:"#/properties/gradient/minItems",keyword:"minItems",params:{limit:2}};e===null?e=[n]:e.push(n),t++}let r=i.length;for(let n=0;n<r;n++){let m=i[n];
if(typeof m=="number"&&isFinite(m)){if(m>4||isNaN(m)){let p={instancePath:s+"/gradient/"+n,schemaPath:"#/properties/gradient/items/maximum",keyword:"maximum",params:{
comparison:"<=",limit:4}};e===null?e=[p]:e.push(p),t++}if(m<-4||isNaN(m)){let p={instancePath:s+"/gradient/"+n,schemaPath:"#/properties/gradient/items/minimum",
keyword:"minimum",params:{comparison:">=",limit:-4}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:s+"/gradient/"+n,schemaPath:"#/properties/gradient/i\
tems/type",keyword:"type",params:{type:"number"}};e===null?e=[p]:e.push(p),t++}}}else{let r={instancePath:s+"/gradient",schemaPath:"#/properties/gradient/type",
keyword:"type",params:{type:"array"}};e===null?e=[r]:e.push(r),t++}}}else{let i={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?
e=[i]:e.push(i),t++}return C.errors=e,t===0}function _(a,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=a}={}){let e=null,t=0;if(a&&typeof a=="\
object"&&!Array.isArray(a)){for(let i in a)if(!(i==="lateral"||i==="distortion"||i==="falloff")){let r={instancePath:s,schemaPath:"#/additionalProperties",keyword:"\
additionalProperties",params:{additionalProperty:i}};e===null?e=[r]:e.push(r),t++}if(a.lateral!==void 0){let i=a.lateral;if(i&&typeof i=="object"&&!Array.isArray(
i)){for(let r in i)if(!(r==="red"||r==="blue")){let n={instancePath:s+"/lateral",schemaPath:"#/properties/lateral/additionalProperties",keyword:"additionalPrope\
rties",params:{additionalProperty:r}};e===null?e=[n]:e.push(n),t++}i.red!==void 0&&(N(i.red,{instancePath:s+"/lateral/red",parentData:i,parentDataProperty:"red",
rootData:o})||(e=e===null?N.errors:e.concat(N.errors),t=e.length)),i.blue!==void 0&&(N(i.blue,{instancePath:s+"/lateral/blue",parentData:i,parentDataProperty:"b\
lue",rootData:o})||(e=e===null?N.errors:e.concat(N.errors),t=e.length))}else{let r={instancePath:s+"/lateral",schemaPath:"#/properties/lateral/type",keyword:"ty\
pe",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}}if(a.distortion!==void 0){let i=a.distortion;if(Array.isArray(i)){if(i.length>2){let n={instancePath:s+
"/distortion",schemaPath:"#/properties/distortion/maxItems",keyword:"maxItems",params:{limit:2}};e===null?e=[n]:e.push(n),t++}if(i.length<1){let n={instancePath:s+
"/distortion",schemaPath:"#/properties/distortion/minItems",keyword:"minItems",params:{limit:1}};e===null?e=[n]:e.push(n),t++}let r=i.length;for(let n=0;n<r;n++){
let m=i[n];if(typeof m=="number"&&isFinite(m)){if(m>.1||isNaN(m)){let p={instancePath:s+"/distortion/"+n,schemaPath:"#/properties/distortion/items/maximum",keyword:"\
maximum",params:{comparison:"<=",limit:.1}};e===null?e=[p]:e.push(p),t++}if(m<-.1||isNaN(m)){let p={instancePath:s+"/distortion/"+n,schemaPath:"#/properties/dis\
tortion/items/minimum",keyword:"minimum",params:{comparison:">=",limit:-.1}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:s+"/distortion/"+n,schemaPath:"\
#/properties/distortion/items/type",keyword:"type",params:{type:"number"}};e===null?e=[p]:e.push(p),t++}}}else{let r={instancePath:s+"/distortion",schemaPath:"#\
/properties/distortion/type",keyword:"type",params:{type:"array"}};e===null?e=[r]:e.push(r),t++}}a.falloff!==void 0&&(C(a.falloff,{instancePath:s+"/falloff",parentData:a,
parentDataProperty:"falloff",rootData:o})||(e=e===null?C.errors:e.concat(C.errors),t=e.length))}else{let i={instancePath:s,schemaPath:"#/type",keyword:"type",params:{
type:"object"}};e===null?e=[i]:e.push(i),t++}return _.errors=e,t===0}function F(a,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=a}={}){let e=null,
t=0;if(a&&typeof a=="object"&&!Array.isArray(a)){for(let i in a)if(!(i==="blank"||i==="flare"||i==="times"||i==="spots"||i==="lens")){let r={instancePath:s,schemaPath:"\
#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:i}};e===null?e=[r]:e.push(r),t++}if(a.blank!==void 0){let i=a.blank;if(typeof i!=
"string"&&!(i&&typeof i=="object"&&!Array.isArray(i))){let r={instancePath:s+"/blank",schemaPath:"#/properties/blank/type",keyword:"type",params:{type:re.properties.
blank.type}};e===null?e=[r]:e.push(r),t++}if(typeof i=="string"&&y(i)<1){let r={instancePath:s+"/blank",schemaPath:"#/properties/blank/minLength",keyword:"minLe\
ngth",params:{limit:1}};e===null?e=[r]:e.push(r),t++}if(i&&typeof i=="object"&&!Array.isArray(i)){if(i.red===void 0){let r={instancePath:s+"/blank",schemaPath:"\
#/properties/blank/required",keyword:"required",params:{missingProperty:"red"}};e===null?e=[r]:e.push(r),t++}if(i.green===void 0){let r={instancePath:s+"/blank",
schemaPath:"#/properties/blank/required",keyword:"required",params:{missingProperty:"green"}};e===null?e=[r]:e.push(r),t++}if(i.blue===void 0){let r={instancePath:s+
"/blank",schemaPath:"#/properties/blank/required",keyword:"required",params:{missingProperty:"blue"}};e===null?e=[r]:e.push(r),t++}for(let r in i)if(!(r==="red"||
r==="green"||r==="blue")){let n={instancePath:s+"/blank",schemaPath:"#/properties/blank/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};
e===null?e=[n]:e.push(n),t++}if(i.red!==void 0){let r=i.red;if(typeof r=="string"){if(y(r)<1){let n={instancePath:s+"/blank/red",schemaPath:"#/properties/blank/\
properties/red/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[n]:e.push(n),t++}}else{let n={instancePath:s+"/blank/red",schemaPath:"#/properties/b\
lank/properties/red/type",keyword:"type",params:{type:"string"}};e===null?e=[n]:e.push(n),t++}}if(i.green!==void 0){let r=i.green;if(typeof r=="string"){if(y(r)<
1){let n={instancePath:s+"/blank/green",schemaPath:"#/properties/blank/properties/green/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[n]:e.push(n),
t++}}else{let n={instancePath:s+"/blank/green",schemaPath:"#/properties/blank/properties/green/type",keyword:"type",params:{type:"string"}};e===null?e=[n]:e.push(
n),t++}}if(i.blue!==void 0){let r=i.blue;if(typeof r=="string"){if(y(r)<1){let n={instancePath:s+"/blank/blue",schemaPath:"#/properties/blank/properties/blue/mi\
nLength",keyword:"minLength",params:{limit:1}};e===null?e=[n]:e.push(n),t++}}else{let n={instancePath:s+"/blank/blue",schemaPath:"#/properties/blank/properties/\
blue/type",keyword:"type",params:{type:"string"}};e===null?e=[n]:e.push(n),t++}}}}if(a.flare!==void 0){let i=a.flare;if(!(typeof i=="number"&&isFinite(i))&&!Array.
isArray(i)){let r={instancePath:s+"/flare",schemaPath:"#/properties/flare/type",keyword:"type",params:{type:re.properties.flare.type}};e===null?e=[r]:e.push(r),
t++}if(typeof i=="number"&&isFinite(i)){if(i>.2||isNaN(i)){let r={instancePath:s+"/flare",schemaPath:"#/properties/flare/maximum",keyword:"maximum",params:{comparison:"\
<=",limit:.2}};e===null?e=[r]:e.push(r),t++}if(i<0||isNaN(i)){let r={instancePath:s+"/flare",schemaPath:"#/properties/flare/minimum",keyword:"minimum",params:{comparison:"\
>=",limit:0}};e===null?e=[r]:e.push(r),t++}}if(Array.isArray(i)){if(i.length>3){let n={instancePath:s+"/flare",schemaPath:"#/properties/flare/maxItems",keyword:"\
maxItems",params:{limit:3}};e===null?e=[n]:e.push(n),t++}if(i.length<3){let n={instancePath:s+"/flare",schemaPath:"#/properties/flare/minItems",keyword:"minItem\
s",params:{limit:3}};e===null?e=[n]:e.push(n),t++}let r=i.length;for(let n=0;n<r;n++){let m=i[n];if(typeof m=="number"&&isFinite(m)){if(m>.2||isNaN(m)){let p={instancePath:s+
"/flare/"+n,schemaPath:"#/properties/flare/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:.2}};e===null?e=[p]:e.push(p),t++}if(m<0||isNaN(m)){let p={
instancePath:s+"/flare/"+n,schemaPath:"#/properties/flare/items/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[p]:e.push(p),t++}}else{
let p={instancePath:s+"/flare/"+n,schemaPath:"#/properties/flare/items/type",keyword:"type",params:{type:"number"}};e===null?e=[p]:e.push(p),t++}}}}if(a.times!==
void 0){let i=a.times;if(!(i==="written"||i==="nominal")){let r={instancePath:s+"/times",schemaPath:"#/properties/times/enum",keyword:"enum",params:{allowedValues:re.
properties.times.enum}};e===null?e=[r]:e.push(r),t++}}a.spots!==void 0&&(L(a.spots,{instancePath:s+"/spots",parentData:a,parentDataProperty:"spots",rootData:o})||
(e=e===null?L.errors:e.concat(L.errors),t=e.length)),a.lens!==void 0&&(_(a.lens,{instancePath:s+"/lens",parentData:a,parentDataProperty:"lens",rootData:o})||(e=
e===null?_.errors:e.concat(_.errors),t=e.length))}else{let i={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[i]:e.push(i),
t++}return F.errors=e,t===0}var ke={type:"object",additionalProperties:!1,properties:{base:{$ref:"#/definitions/base"},gamma:{type:["number","array"],minimum:.1,
maximum:3,items:{type:"number",minimum:.1,maximum:3},minItems:3,maxItems:3},curve:{$ref:"#/definitions/filmCurve"},unmix:{type:"array",minItems:3,maxItems:3,items:{
$ref:"#/definitions/unmixRow"}},colour:{type:"array",minItems:3,maxItems:3,items:{$ref:"#/definitions/colourRow"}}}};var we={type:"object",additionalProperties:!1,required:["scan"],properties:{scan:{type:"string",minLength:1},area:{type:"array",minItems:4,maxItems:4,items:[{type:"\
number",minimum:0,maximum:1},{type:"number",minimum:0,maximum:1},{type:"number",minimum:1e-4,maximum:1},{type:"number",minimum:1e-4,maximum:1}]},scatter:{type:[
"number","array"],minimum:0,maximum:2,items:{type:"number",minimum:0,maximum:2},minItems:3,maxItems:3}}};function O(a,{instancePath:s="",parentData:h,parentDataProperty:f,
rootData:o=a}={}){let e=null,t=0;if(a&&typeof a=="object"&&!Array.isArray(a)){if(a.scan===void 0){let i={instancePath:s,schemaPath:"#/required",keyword:"require\
d",params:{missingProperty:"scan"}};e===null?e=[i]:e.push(i),t++}for(let i in a)if(!(i==="scan"||i==="area"||i==="scatter")){let r={instancePath:s,schemaPath:"#\
/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:i}};e===null?e=[r]:e.push(r),t++}if(a.scan!==void 0){let i=a.scan;if(typeof i==
"string"){if(y(i)<1){let r={instancePath:s+"/scan",schemaPath:"#/properties/scan/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[r]:e.push(r),t++}}else{
let r={instancePath:s+"/scan",schemaPath:"#/properties/scan/type",keyword:"type",params:{type:"string"}};e===null?e=[r]:e.push(r),t++}}if(a.area!==void 0){let i=a.
area;if(Array.isArray(i)){if(i.length>4){let n={instancePath:s+"/area",schemaPath:"#/properties/area/maxItems",keyword:"maxItems",params:{limit:4}};e===null?e=[
n]:e.push(n),t++}if(i.length<4){let n={instancePath:s+"/area",schemaPath:"#/properties/area/minItems",keyword:"minItems",params:{limit:4}};e===null?e=[n]:e.push(
n),t++}let r=i.length;if(r>0){let n=i[0];if(typeof n=="number"&&isFinite(n)){if(n>1||isNaN(n)){let m={instancePath:s+"/area/0",schemaPath:"#/properties/area/ite\
ms/0/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[m]:e.push(m),t++}if(n<0||isNaN(n)){let m={instancePath:s+"/area/0",schemaPath:"#/p\
roperties/area/items/0/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:s+"/area/0",schemaPath:"\
#/properties/area/items/0/type",keyword:"type",params:{type:"number"}};e===null?e=[m]:e.push(m),t++}}if(r>1){let n=i[1];if(typeof n=="number"&&isFinite(n)){if(n>
1||isNaN(n)){let m={instancePath:s+"/area/1",schemaPath:"#/properties/area/items/1/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[m]:e.
push(m),t++}if(n<0||isNaN(n)){let m={instancePath:s+"/area/1",schemaPath:"#/properties/area/items/1/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};
e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:s+"/area/1",schemaPath:"#/properties/area/items/1/type",keyword:"type",params:{type:"number"}};e===null?e=
[m]:e.push(m),t++}}if(r>2){let n=i[2];if(typeof n=="number"&&isFinite(n)){if(n>1||isNaN(n)){let m={instancePath:s+"/area/2",schemaPath:"#/properties/area/items/\
2/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[m]:e.push(m),t++}if(n<1e-4||isNaN(n)){let m={instancePath:s+"/area/2",schemaPath:"#/p\
roperties/area/items/2/minimum",keyword:"minimum",params:{comparison:">=",limit:1e-4}};e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:s+"/area/2",schemaPath:"\
#/properties/area/items/2/type",keyword:"type",params:{type:"number"}};e===null?e=[m]:e.push(m),t++}}if(r>3){let n=i[3];if(typeof n=="number"&&isFinite(n)){if(n>
1||isNaN(n)){let m={instancePath:s+"/area/3",schemaPath:"#/properties/area/items/3/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[m]:e.
push(m),t++}if(n<1e-4||isNaN(n)){let m={instancePath:s+"/area/3",schemaPath:"#/properties/area/items/3/minimum",keyword:"minimum",params:{comparison:">=",limit:1e-4}};
e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:s+"/area/3",schemaPath:"#/properties/area/items/3/type",keyword:"type",params:{type:"number"}};e===null?e=
[m]:e.push(m),t++}}}else{let r={instancePath:s+"/area",schemaPath:"#/properties/area/type",keyword:"type",params:{type:"array"}};e===null?e=[r]:e.push(r),t++}}if(a.
scatter!==void 0){let i=a.scatter;if(!(typeof i=="number"&&isFinite(i))&&!Array.isArray(i)){let r={instancePath:s+"/scatter",schemaPath:"#/properties/scatter/ty\
pe",keyword:"type",params:{type:we.properties.scatter.type}};e===null?e=[r]:e.push(r),t++}if(typeof i=="number"&&isFinite(i)){if(i>2||isNaN(i)){let r={instancePath:s+
"/scatter",schemaPath:"#/properties/scatter/maximum",keyword:"maximum",params:{comparison:"<=",limit:2}};e===null?e=[r]:e.push(r),t++}if(i<0||isNaN(i)){let r={instancePath:s+
"/scatter",schemaPath:"#/properties/scatter/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[r]:e.push(r),t++}}if(Array.isArray(i)){if(i.
length>3){let n={instancePath:s+"/scatter",schemaPath:"#/properties/scatter/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[n]:e.push(n),t++}if(i.length<
3){let n={instancePath:s+"/scatter",schemaPath:"#/properties/scatter/minItems",keyword:"minItems",params:{limit:3}};e===null?e=[n]:e.push(n),t++}let r=i.length;
for(let n=0;n<r;n++){let m=i[n];if(typeof m=="number"&&isFinite(m)){if(m>2||isNaN(m)){let p={instancePath:s+"/scatter/"+n,schemaPath:"#/properties/scatter/items\
/maximum",keyword:"maximum",params:{comparison:"<=",limit:2}};e===null?e=[p]:e.push(p),t++}if(m<0||isNaN(m)){let p={instancePath:s+"/scatter/"+n,schemaPath:"#/p\
roperties/scatter/items/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:s+"/scatter/"+n,schemaPath:"\
#/properties/scatter/items/type",keyword:"type",params:{type:"number"}};e===null?e=[p]:e.push(p),t++}}}}}else{let i={instancePath:s,schemaPath:"#/type",keyword:"\
type",params:{type:"object"}};e===null?e=[i]:e.push(i),t++}return O.errors=e,t===0}function T(a,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=a}={}){
let e=null,t=0;if(a&&typeof a=="object"&&!Array.isArray(a)){for(let i in a)if(!(i==="density"||i==="read")){let r={instancePath:s,schemaPath:"#/additionalProper\
ties",keyword:"additionalProperties",params:{additionalProperty:i}};e===null?e=[r]:e.push(r),t++}if(a.density!==void 0){let i=a.density;if(Array.isArray(i)){if(i.
length>3){let n={instancePath:s+"/density",schemaPath:"#/properties/density/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[n]:e.push(n),t++}if(i.length<
3){let n={instancePath:s+"/density",schemaPath:"#/properties/density/minItems",keyword:"minItems",params:{limit:3}};e===null?e=[n]:e.push(n),t++}let r=i.length;
for(let n=0;n<r;n++){let m=i[n];if(typeof m=="number"&&isFinite(m)){if(m>5||isNaN(m)){let p={instancePath:s+"/density/"+n,schemaPath:"#/properties/density/items\
/maximum",keyword:"maximum",params:{comparison:"<=",limit:5}};e===null?e=[p]:e.push(p),t++}if(m<-1||isNaN(m)){let p={instancePath:s+"/density/"+n,schemaPath:"#/\
properties/density/items/minimum",keyword:"minimum",params:{comparison:">=",limit:-1}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:s+"/density/"+n,schemaPath:"\
#/properties/density/items/type",keyword:"type",params:{type:"number"}};e===null?e=[p]:e.push(p),t++}}}else{let r={instancePath:s+"/density",schemaPath:"#/prope\
rties/density/type",keyword:"type",params:{type:"array"}};e===null?e=[r]:e.push(r),t++}}a.read!==void 0&&(O(a.read,{instancePath:s+"/read",parentData:a,parentDataProperty:"\
read",rootData:o})||(e=e===null?O.errors:e.concat(O.errors),t=e.length))}else{let i={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===
null?e=[i]:e.push(i),t++}return T.errors=e,t===0}function d(a,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=a}={}){let e=null,t=0;if(Array.isArray(a)){if(a.length>256){let r={instancePath:s,schemaPath:"\
#/maxItems",keyword:"maxItems",params:{limit:256}};e===null?e=[r]:e.push(r),t++}if(a.length<2){let r={instancePath:s,schemaPath:"#/minItems",keyword:"minItems",
params:{limit:2}};e===null?e=[r]:e.push(r),t++}let i=a.length;for(let r=0;r<i;r++){let n=a[r];if(typeof n=="number"&&isFinite(n)){if(n>6||isNaN(n)){let m={instancePath:s+
"/"+r,schemaPath:"#/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:6}};e===null?e=[m]:e.push(m),t++}if(n<-1||isNaN(n)){let m={instancePath:s+"/"+
r,schemaPath:"#/items/minimum",keyword:"minimum",params:{comparison:">=",limit:-1}};e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:s+"/"+r,schemaPath:"#\
/items/type",keyword:"type",params:{type:"number"}};e===null?e=[m]:e.push(m),t++}}}else{let i={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"a\
rray"}};e===null?e=[i]:e.push(i),t++}return d.errors=e,t===0}function M(a,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=a}={}){let e=null,t=0;
if(a&&typeof a=="object"&&!Array.isArray(a)){if(a.logH===void 0){let i={instancePath:s,schemaPath:"#/required",keyword:"required",params:{missingProperty:"logH"}};
e===null?e=[i]:e.push(i),t++}for(let i in a)if(!(i==="logH"||i==="red"||i==="green"||i==="blue"||i==="density"||i==="mid")){let r={instancePath:s,schemaPath:"#/\
additionalProperties",keyword:"additionalProperties",params:{additionalProperty:i}};e===null?e=[r]:e.push(r),t++}if(a.logH!==void 0){let i=a.logH;if(Array.isArray(
i)){if(i.length>256){let n={instancePath:s+"/logH",schemaPath:"#/properties/logH/maxItems",keyword:"maxItems",params:{limit:256}};e===null?e=[n]:e.push(n),t++}if(i.
length<2){let n={instancePath:s+"/logH",schemaPath:"#/properties/logH/minItems",keyword:"minItems",params:{limit:2}};e===null?e=[n]:e.push(n),t++}let r=i.length;
for(let n=0;n<r;n++){let m=i[n];if(typeof m=="number"&&isFinite(m)){if(m>8||isNaN(m)){let p={instancePath:s+"/logH/"+n,schemaPath:"#/properties/logH/items/maxim\
um",keyword:"maximum",params:{comparison:"<=",limit:8}};e===null?e=[p]:e.push(p),t++}if(m<-8||isNaN(m)){let p={instancePath:s+"/logH/"+n,schemaPath:"#/propertie\
s/logH/items/minimum",keyword:"minimum",params:{comparison:">=",limit:-8}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:s+"/logH/"+n,schemaPath:"#/pro\
perties/logH/items/type",keyword:"type",params:{type:"number"}};e===null?e=[p]:e.push(p),t++}}}else{let r={instancePath:s+"/logH",schemaPath:"#/properties/logH/\
type",keyword:"type",params:{type:"array"}};e===null?e=[r]:e.push(r),t++}}if(a.red!==void 0&&(d(a.red,{instancePath:s+"/red",parentData:a,parentDataProperty:"re\
d",rootData:o})||(e=e===null?d.errors:e.concat(d.errors),t=e.length)),a.green!==void 0&&(d(a.green,{instancePath:s+"/green",parentData:a,parentDataProperty:"gre\
en",rootData:o})||(e=e===null?d.errors:e.concat(d.errors),t=e.length)),a.blue!==void 0&&(d(a.blue,{instancePath:s+"/blue",parentData:a,parentDataProperty:"blue",
rootData:o})||(e=e===null?d.errors:e.concat(d.errors),t=e.length)),a.density!==void 0&&(d(a.density,{instancePath:s+"/density",parentData:a,parentDataProperty:"\
density",rootData:o})||(e=e===null?d.errors:e.concat(d.errors),t=e.length)),a.mid!==void 0){let i=a.mid;if(typeof i=="number"&&isFinite(i)){if(i>8||isNaN(i)){let r={
instancePath:s+"/mid",schemaPath:"#/properties/mid/maximum",keyword:"maximum",params:{comparison:"<=",limit:8}};e===null?e=[r]:e.push(r),t++}if(i<-8||isNaN(i)){
let r={instancePath:s+"/mid",schemaPath:"#/properties/mid/minimum",keyword:"minimum",params:{comparison:">=",limit:-8}};e===null?e=[r]:e.push(r),t++}}else{let r={
instancePath:s+"/mid",schemaPath:"#/properties/mid/type",keyword:"type",params:{type:"number"}};e===null?e=[r]:e.push(r),t++}}}else{let i={instancePath:s,schemaPath:"\
#/type",keyword:"type",params:{type:"object"}};e===null?e=[i]:e.push(i),t++}return M.errors=e,t===0}function B(a,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=a}={}){let e=null,t=0;if(Array.isArray(a)){if(a.length>3){let r={instancePath:s,schemaPath:"\
#/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[r]:e.push(r),t++}if(a.length<3){let r={instancePath:s,schemaPath:"#/minItems",keyword:"minItems",params:{
limit:3}};e===null?e=[r]:e.push(r),t++}let i=a.length;for(let r=0;r<i;r++){let n=a[r];if(typeof n=="number"&&isFinite(n)){if(n>4||isNaN(n)){let m={instancePath:s+
"/"+r,schemaPath:"#/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:4}};e===null?e=[m]:e.push(m),t++}if(n<-4||isNaN(n)){let m={instancePath:s+"/"+
r,schemaPath:"#/items/minimum",keyword:"minimum",params:{comparison:">=",limit:-4}};e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:s+"/"+r,schemaPath:"#\
/items/type",keyword:"type",params:{type:"number"}};e===null?e=[m]:e.push(m),t++}}}else{let i={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"a\
rray"}};e===null?e=[i]:e.push(i),t++}return B.errors=e,t===0}function G(a,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=a}={}){let e=null,t=0;if(Array.isArray(a)){if(a.length>3){let r={instancePath:s,schemaPath:"\
#/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[r]:e.push(r),t++}if(a.length<3){let r={instancePath:s,schemaPath:"#/minItems",keyword:"minItems",params:{
limit:3}};e===null?e=[r]:e.push(r),t++}let i=a.length;for(let r=0;r<i;r++){let n=a[r];if(typeof n=="number"&&isFinite(n)){if(n>5||isNaN(n)){let m={instancePath:s+
"/"+r,schemaPath:"#/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:5}};e===null?e=[m]:e.push(m),t++}if(n<-5||isNaN(n)){let m={instancePath:s+"/"+
r,schemaPath:"#/items/minimum",keyword:"minimum",params:{comparison:">=",limit:-5}};e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:s+"/"+r,schemaPath:"#\
/items/type",keyword:"type",params:{type:"number"}};e===null?e=[m]:e.push(m),t++}}}else{let i={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"a\
rray"}};e===null?e=[i]:e.push(i),t++}return G.errors=e,t===0}function g(a,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=a}={}){let e=null,t=0;
if(a&&typeof a=="object"&&!Array.isArray(a)){for(let i in a)if(!(i==="base"||i==="gamma"||i==="curve"||i==="unmix"||i==="colour")){let r={instancePath:s,schemaPath:"\
#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:i}};e===null?e=[r]:e.push(r),t++}if(a.base!==void 0&&(T(a.base,{instancePath:s+
"/base",parentData:a,parentDataProperty:"base",rootData:o})||(e=e===null?T.errors:e.concat(T.errors),t=e.length)),a.gamma!==void 0){let i=a.gamma;if(!(typeof i==
"number"&&isFinite(i))&&!Array.isArray(i)){let r={instancePath:s+"/gamma",schemaPath:"#/properties/gamma/type",keyword:"type",params:{type:ke.properties.gamma.type}};
e===null?e=[r]:e.push(r),t++}if(typeof i=="number"&&isFinite(i)){if(i>3||isNaN(i)){let r={instancePath:s+"/gamma",schemaPath:"#/properties/gamma/maximum",keyword:"\
maximum",params:{comparison:"<=",limit:3}};e===null?e=[r]:e.push(r),t++}if(i<.1||isNaN(i)){let r={instancePath:s+"/gamma",schemaPath:"#/properties/gamma/minimum",
keyword:"minimum",params:{comparison:">=",limit:.1}};e===null?e=[r]:e.push(r),t++}}if(Array.isArray(i)){if(i.length>3){let n={instancePath:s+"/gamma",schemaPath:"\
#/properties/gamma/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[n]:e.push(n),t++}if(i.length<3){let n={instancePath:s+"/gamma",schemaPath:"#/prope\
rties/gamma/minItems",keyword:"minItems",params:{limit:3}};e===null?e=[n]:e.push(n),t++}let r=i.length;for(let n=0;n<r;n++){let m=i[n];if(typeof m=="number"&&isFinite(
m)){if(m>3||isNaN(m)){let p={instancePath:s+"/gamma/"+n,schemaPath:"#/properties/gamma/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:3}};e===null?
e=[p]:e.push(p),t++}if(m<.1||isNaN(m)){let p={instancePath:s+"/gamma/"+n,schemaPath:"#/properties/gamma/items/minimum",keyword:"minimum",params:{comparison:">=",
limit:.1}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:s+"/gamma/"+n,schemaPath:"#/properties/gamma/items/type",keyword:"type",params:{type:"number"}};
e===null?e=[p]:e.push(p),t++}}}}if(a.curve!==void 0&&(M(a.curve,{instancePath:s+"/curve",parentData:a,parentDataProperty:"curve",rootData:o})||(e=e===null?M.errors:
e.concat(M.errors),t=e.length)),a.unmix!==void 0){let i=a.unmix;if(Array.isArray(i)){if(i.length>3){let n={instancePath:s+"/unmix",schemaPath:"#/properties/unmi\
x/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[n]:e.push(n),t++}if(i.length<3){let n={instancePath:s+"/unmix",schemaPath:"#/properties/unmix/minIt\
ems",keyword:"minItems",params:{limit:3}};e===null?e=[n]:e.push(n),t++}let r=i.length;for(let n=0;n<r;n++)B(i[n],{instancePath:s+"/unmix/"+n,parentData:i,parentDataProperty:n,
rootData:o})||(e=e===null?B.errors:e.concat(B.errors),t=e.length)}else{let r={instancePath:s+"/unmix",schemaPath:"#/properties/unmix/type",keyword:"type",params:{
type:"array"}};e===null?e=[r]:e.push(r),t++}}if(a.colour!==void 0){let i=a.colour;if(Array.isArray(i)){if(i.length>3){let n={instancePath:s+"/colour",schemaPath:"\
#/properties/colour/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[n]:e.push(n),t++}if(i.length<3){let n={instancePath:s+"/colour",schemaPath:"#/pro\
perties/colour/minItems",keyword:"minItems",params:{limit:3}};e===null?e=[n]:e.push(n),t++}let r=i.length;for(let n=0;n<r;n++)G(i[n],{instancePath:s+"/colour/"+
n,parentData:i,parentDataProperty:n,rootData:o})||(e=e===null?G.errors:e.concat(G.errors),t=e.length)}else{let r={instancePath:s+"/colour",schemaPath:"#/propert\
ies/colour/type",keyword:"type",params:{type:"array"}};e===null?e=[r]:e.push(r),t++}}}else{let i={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"\
object"}};e===null?e=[i]:e.push(i),t++}return g.errors=e,t===0}var ne={type:"object",additionalProperties:!1,properties:{exposure:{type:"number",minimum:-10,maximum:10},
filtration:{$ref:"#/definitions/filtration"},contrast:{type:["number","string"],minimum:.2,maximum:5,pattern:"^(R([4-9][0-9]|1[0-9]{2}|2[0-4][0-9]|250)|grade (-\
1|[0-5]))$"},toe:{type:"number",minimum:-1,maximum:1},shoulder:{type:"number",minimum:-1,maximum:1},black:{type:"number",minimum:0,maximum:30},saturation:{type:"\
number",minimum:0,maximum:3},toning:{$ref:"#/definitions/toning"},curve:{type:"array",maxItems:64,items:{type:"array",minItems:2,maxItems:2,items:[{type:"number",
minimum:0,maximum:100},{type:"number",minimum:0,maximum:100}]}},local:{type:"array",maxItems:64,items:{$ref:"#/definitions/localArea"}}}};function q(a,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=a}={}){let e=null,t=0;if(a&&typeof a=="object"&&!Array.isArray(a)){for(let i in a)if(!(i===
"cyan"||i==="magenta"||i==="yellow")){let r={instancePath:s,schemaPath:"#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:i}};e===
null?e=[r]:e.push(r),t++}if(a.cyan!==void 0){let i=a.cyan;if(typeof i=="number"&&isFinite(i)){if(i>200||isNaN(i)){let r={instancePath:s+"/cyan",schemaPath:"#/pr\
operties/cyan/maximum",keyword:"maximum",params:{comparison:"<=",limit:200}};e===null?e=[r]:e.push(r),t++}if(i<-200||isNaN(i)){let r={instancePath:s+"/cyan",schemaPath:"\
#/properties/cyan/minimum",keyword:"minimum",params:{comparison:">=",limit:-200}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/cyan",schemaPath:"#\
/properties/cyan/type",keyword:"type",params:{type:"number"}};e===null?e=[r]:e.push(r),t++}}if(a.magenta!==void 0){let i=a.magenta;if(typeof i=="number"&&isFinite(
i)){if(i>200||isNaN(i)){let r={instancePath:s+"/magenta",schemaPath:"#/properties/magenta/maximum",keyword:"maximum",params:{comparison:"<=",limit:200}};e===null?
e=[r]:e.push(r),t++}if(i<-200||isNaN(i)){let r={instancePath:s+"/magenta",schemaPath:"#/properties/magenta/minimum",keyword:"minimum",params:{comparison:">=",limit:-200}};
e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/magenta",schemaPath:"#/properties/magenta/type",keyword:"type",params:{type:"number"}};e===null?e=[r]:
e.push(r),t++}}if(a.yellow!==void 0){let i=a.yellow;if(typeof i=="number"&&isFinite(i)){if(i>200||isNaN(i)){let r={instancePath:s+"/yellow",schemaPath:"#/proper\
ties/yellow/maximum",keyword:"maximum",params:{comparison:"<=",limit:200}};e===null?e=[r]:e.push(r),t++}if(i<-200||isNaN(i)){let r={instancePath:s+"/yellow",schemaPath:"\
#/properties/yellow/minimum",keyword:"minimum",params:{comparison:">=",limit:-200}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/yellow",schemaPath:"\
#/properties/yellow/type",keyword:"type",params:{type:"number"}};e===null?e=[r]:e.push(r),t++}}}else{let i={instancePath:s,schemaPath:"#/type",keyword:"type",params:{
type:"object"}};e===null?e=[i]:e.push(i),t++}return q.errors=e,t===0}function J(a,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=a}={}){let e=null,t=0;if(a&&typeof a=="object"&&!Array.isArray(a)){for(let i in a)if(!(i===
"shadows"||i==="highlights"||i==="paper")){let r={instancePath:s,schemaPath:"#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:i}};
e===null?e=[r]:e.push(r),t++}if(a.shadows!==void 0){let i=a.shadows;if(i&&typeof i=="object"&&!Array.isArray(i)){for(let r in i)if(!(r==="hue"||r==="strength")){
let n={instancePath:s+"/shadows",schemaPath:"#/properties/shadows/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?e=
[n]:e.push(n),t++}if(i.hue!==void 0){let r=i.hue;if(typeof r=="number"&&isFinite(r)){if(r>360||isNaN(r)){let n={instancePath:s+"/shadows/hue",schemaPath:"#/prop\
erties/shadows/properties/hue/maximum",keyword:"maximum",params:{comparison:"<=",limit:360}};e===null?e=[n]:e.push(n),t++}if(r<0||isNaN(r)){let n={instancePath:s+
"/shadows/hue",schemaPath:"#/properties/shadows/properties/hue/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[n]:e.push(n),t++}}else{let n={
instancePath:s+"/shadows/hue",schemaPath:"#/properties/shadows/properties/hue/type",keyword:"type",params:{type:"number"}};e===null?e=[n]:e.push(n),t++}}if(i.strength!==
void 0){let r=i.strength;if(typeof r=="number"&&isFinite(r)){if(r>60||isNaN(r)){let n={instancePath:s+"/shadows/strength",schemaPath:"#/properties/shadows/prope\
rties/strength/maximum",keyword:"maximum",params:{comparison:"<=",limit:60}};e===null?e=[n]:e.push(n),t++}if(r<0||isNaN(r)){let n={instancePath:s+"/shadows/stre\
ngth",schemaPath:"#/properties/shadows/properties/strength/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[n]:e.push(n),t++}}else{let n={
instancePath:s+"/shadows/strength",schemaPath:"#/properties/shadows/properties/strength/type",keyword:"type",params:{type:"number"}};e===null?e=[n]:e.push(n),t++}}}else{
let r={instancePath:s+"/shadows",schemaPath:"#/properties/shadows/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}}if(a.highlights!==void 0){
let i=a.highlights;if(i&&typeof i=="object"&&!Array.isArray(i)){for(let r in i)if(!(r==="hue"||r==="strength")){let n={instancePath:s+"/highlights",schemaPath:"\
#/properties/highlights/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?e=[n]:e.push(n),t++}if(i.hue!==void 0){let r=i.
hue;if(typeof r=="number"&&isFinite(r)){if(r>360||isNaN(r)){let n={instancePath:s+"/highlights/hue",schemaPath:"#/properties/highlights/properties/hue/maximum",
keyword:"maximum",params:{comparison:"<=",limit:360}};e===null?e=[n]:e.push(n),t++}if(r<0||isNaN(r)){let n={instancePath:s+"/highlights/hue",schemaPath:"#/prope\
rties/highlights/properties/hue/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[n]:e.push(n),t++}}else{let n={instancePath:s+"/highligh\
ts/hue",schemaPath:"#/properties/highlights/properties/hue/type",keyword:"type",params:{type:"number"}};e===null?e=[n]:e.push(n),t++}}if(i.strength!==void 0){let r=i.
strength;if(typeof r=="number"&&isFinite(r)){if(r>60||isNaN(r)){let n={instancePath:s+"/highlights/strength",schemaPath:"#/properties/highlights/properties/stre\
ngth/maximum",keyword:"maximum",params:{comparison:"<=",limit:60}};e===null?e=[n]:e.push(n),t++}if(r<0||isNaN(r)){let n={instancePath:s+"/highlights/strength",schemaPath:"\
#/properties/highlights/properties/strength/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[n]:e.push(n),t++}}else{let n={instancePath:s+
"/highlights/strength",schemaPath:"#/properties/highlights/properties/strength/type",keyword:"type",params:{type:"number"}};e===null?e=[n]:e.push(n),t++}}}else{
let r={instancePath:s+"/highlights",schemaPath:"#/properties/highlights/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}}if(a.paper!==
void 0){let i=a.paper;if(i&&typeof i=="object"&&!Array.isArray(i)){for(let r in i)if(!(r==="hue"||r==="strength")){let n={instancePath:s+"/paper",schemaPath:"#/\
properties/paper/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?e=[n]:e.push(n),t++}if(i.hue!==void 0){let r=i.hue;
if(typeof r=="number"&&isFinite(r)){if(r>360||isNaN(r)){let n={instancePath:s+"/paper/hue",schemaPath:"#/properties/paper/properties/hue/maximum",keyword:"maxim\
um",params:{comparison:"<=",limit:360}};e===null?e=[n]:e.push(n),t++}if(r<0||isNaN(r)){let n={instancePath:s+"/paper/hue",schemaPath:"#/properties/paper/propert\
ies/hue/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[n]:e.push(n),t++}}else{let n={instancePath:s+"/paper/hue",schemaPath:"#/propert\
ies/paper/properties/hue/type",keyword:"type",params:{type:"number"}};e===null?e=[n]:e.push(n),t++}}if(i.strength!==void 0){let r=i.strength;if(typeof r=="numbe\
r"&&isFinite(r)){if(r>30||isNaN(r)){let n={instancePath:s+"/paper/strength",schemaPath:"#/properties/paper/properties/strength/maximum",keyword:"maximum",params:{
comparison:"<=",limit:30}};e===null?e=[n]:e.push(n),t++}if(r<0||isNaN(r)){let n={instancePath:s+"/paper/strength",schemaPath:"#/properties/paper/properties/stre\
ngth/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[n]:e.push(n),t++}}else{let n={instancePath:s+"/paper/strength",schemaPath:"#/prope\
rties/paper/properties/strength/type",keyword:"type",params:{type:"number"}};e===null?e=[n]:e.push(n),t++}}}else{let r={instancePath:s+"/paper",schemaPath:"#/pr\
operties/paper/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}}}else{let i={instancePath:s,schemaPath:"#/type",keyword:"type",params:{
type:"object"}};e===null?e=[i]:e.push(i),t++}return J.errors=e,t===0}var xe={type:"object",additionalProperties:!1,properties:{id:{type:"string",pattern:"^[A-Za\
-z0-9][A-Za-z0-9_-]{0,31}$"},name:{type:"string",minLength:1,maxLength:60},line:{type:"array",minItems:2,maxItems:2,items:{$ref:"#/definitions/localPoint"}},oval:{
type:"array",minItems:4,maxItems:4,items:[{type:"number",minimum:-1,maximum:2},{type:"number",minimum:-1,maximum:2},{type:"number",minimum:.002,maximum:2},{type:"\
number",minimum:.002,maximum:2}]},polygon:{type:"array",minItems:3,maxItems:64,items:{$ref:"#/definitions/localPoint"}},turn:{type:"number",minimum:-180,maximum:180},
feather:{type:"number",minimum:0,maximum:1},exposure:{type:"number",minimum:-5,maximum:5},filtration:{$ref:"#/definitions/filtration"},contrast:{type:"number",minimum:.25,
maximum:4}}},be=new RegExp("^[A-Za-z0-9][A-Za-z0-9_-]{0,31}$","u");function v(a,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=a}={}){let e=null,t=0;if(Array.isArray(a)){if(a.length>2){let r={instancePath:s,schemaPath:"\
#/maxItems",keyword:"maxItems",params:{limit:2}};e===null?e=[r]:e.push(r),t++}if(a.length<2){let r={instancePath:s,schemaPath:"#/minItems",keyword:"minItems",params:{
limit:2}};e===null?e=[r]:e.push(r),t++}let i=a.length;if(i>0){let r=a[0];if(typeof r=="number"&&isFinite(r)){if(r>2||isNaN(r)){let n={instancePath:s+"/0",schemaPath:"\
#/items/0/maximum",keyword:"maximum",params:{comparison:"<=",limit:2}};e===null?e=[n]:e.push(n),t++}if(r<-1||isNaN(r)){let n={instancePath:s+"/0",schemaPath:"#/\
items/0/minimum",keyword:"minimum",params:{comparison:">=",limit:-1}};e===null?e=[n]:e.push(n),t++}}else{let n={instancePath:s+"/0",schemaPath:"#/items/0/type",
keyword:"type",params:{type:"number"}};e===null?e=[n]:e.push(n),t++}}if(i>1){let r=a[1];if(typeof r=="number"&&isFinite(r)){if(r>2||isNaN(r)){let n={instancePath:s+
"/1",schemaPath:"#/items/1/maximum",keyword:"maximum",params:{comparison:"<=",limit:2}};e===null?e=[n]:e.push(n),t++}if(r<-1||isNaN(r)){let n={instancePath:s+"/\
1",schemaPath:"#/items/1/minimum",keyword:"minimum",params:{comparison:">=",limit:-1}};e===null?e=[n]:e.push(n),t++}}else{let n={instancePath:s+"/1",schemaPath:"\
#/items/1/type",keyword:"type",params:{type:"number"}};e===null?e=[n]:e.push(n),t++}}}else{let i={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"\
array"}};e===null?e=[i]:e.push(i),t++}return v.errors=e,t===0}function K(a,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=a}={}){let e=null,t=0;
if(a&&typeof a=="object"&&!Array.isArray(a)){for(let i in a)if(!x.call(xe.properties,i)){let r={instancePath:s,schemaPath:"#/additionalProperties",keyword:"addi\
tionalProperties",params:{additionalProperty:i}};e===null?e=[r]:e.push(r),t++}if(a.id!==void 0){let i=a.id;if(typeof i=="string"){if(!be.test(i)){let r={instancePath:s+
"/id",schemaPath:"#/properties/id/pattern",keyword:"pattern",params:{pattern:"^[A-Za-z0-9][A-Za-z0-9_-]{0,31}$"}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+
"/id",schemaPath:"#/properties/id/type",keyword:"type",params:{type:"string"}};e===null?e=[r]:e.push(r),t++}}if(a.name!==void 0){let i=a.name;if(typeof i=="stri\
ng"){if(y(i)>60){let r={instancePath:s+"/name",schemaPath:"#/properties/name/maxLength",keyword:"maxLength",params:{limit:60}};e===null?e=[r]:e.push(r),t++}if(y(
i)<1){let r={instancePath:s+"/name",schemaPath:"#/properties/name/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+
"/name",schemaPath:"#/properties/name/type",keyword:"type",params:{type:"string"}};e===null?e=[r]:e.push(r),t++}}if(a.line!==void 0){let i=a.line;if(Array.isArray(
i)){if(i.length>2){let n={instancePath:s+"/line",schemaPath:"#/properties/line/maxItems",keyword:"maxItems",params:{limit:2}};e===null?e=[n]:e.push(n),t++}if(i.
length<2){let n={instancePath:s+"/line",schemaPath:"#/properties/line/minItems",keyword:"minItems",params:{limit:2}};e===null?e=[n]:e.push(n),t++}let r=i.length;
for(let n=0;n<r;n++)v(i[n],{instancePath:s+"/line/"+n,parentData:i,parentDataProperty:n,rootData:o})||(e=e===null?v.errors:e.concat(v.errors),t=e.length)}else{let r={
instancePath:s+"/line",schemaPath:"#/properties/line/type",keyword:"type",params:{type:"array"}};e===null?e=[r]:e.push(r),t++}}if(a.oval!==void 0){let i=a.oval;
if(Array.isArray(i)){if(i.length>4){let n={instancePath:s+"/oval",schemaPath:"#/properties/oval/maxItems",keyword:"maxItems",params:{limit:4}};e===null?e=[n]:e.
push(n),t++}if(i.length<4){let n={instancePath:s+"/oval",schemaPath:"#/properties/oval/minItems",keyword:"minItems",params:{limit:4}};e===null?e=[n]:e.push(n),t++}
let r=i.length;if(r>0){let n=i[0];if(typeof n=="number"&&isFinite(n)){if(n>2||isNaN(n)){let m={instancePath:s+"/oval/0",schemaPath:"#/properties/oval/items/0/ma\
ximum",keyword:"maximum",params:{comparison:"<=",limit:2}};e===null?e=[m]:e.push(m),t++}if(n<-1||isNaN(n)){let m={instancePath:s+"/oval/0",schemaPath:"#/propert\
ies/oval/items/0/minimum",keyword:"minimum",params:{comparison:">=",limit:-1}};e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:s+"/oval/0",schemaPath:"#/\
properties/oval/items/0/type",keyword:"type",params:{type:"number"}};e===null?e=[m]:e.push(m),t++}}if(r>1){let n=i[1];if(typeof n=="number"&&isFinite(n)){if(n>2||
isNaN(n)){let m={instancePath:s+"/oval/1",schemaPath:"#/properties/oval/items/1/maximum",keyword:"maximum",params:{comparison:"<=",limit:2}};e===null?e=[m]:e.push(
m),t++}if(n<-1||isNaN(n)){let m={instancePath:s+"/oval/1",schemaPath:"#/properties/oval/items/1/minimum",keyword:"minimum",params:{comparison:">=",limit:-1}};e===
null?e=[m]:e.push(m),t++}}else{let m={instancePath:s+"/oval/1",schemaPath:"#/properties/oval/items/1/type",keyword:"type",params:{type:"number"}};e===null?e=[m]:
e.push(m),t++}}if(r>2){let n=i[2];if(typeof n=="number"&&isFinite(n)){if(n>2||isNaN(n)){let m={instancePath:s+"/oval/2",schemaPath:"#/properties/oval/items/2/ma\
ximum",keyword:"maximum",params:{comparison:"<=",limit:2}};e===null?e=[m]:e.push(m),t++}if(n<.002||isNaN(n)){let m={instancePath:s+"/oval/2",schemaPath:"#/prope\
rties/oval/items/2/minimum",keyword:"minimum",params:{comparison:">=",limit:.002}};e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:s+"/oval/2",schemaPath:"\
#/properties/oval/items/2/type",keyword:"type",params:{type:"number"}};e===null?e=[m]:e.push(m),t++}}if(r>3){let n=i[3];if(typeof n=="number"&&isFinite(n)){if(n>
2||isNaN(n)){let m={instancePath:s+"/oval/3",schemaPath:"#/properties/oval/items/3/maximum",keyword:"maximum",params:{comparison:"<=",limit:2}};e===null?e=[m]:e.
push(m),t++}if(n<.002||isNaN(n)){let m={instancePath:s+"/oval/3",schemaPath:"#/properties/oval/items/3/minimum",keyword:"minimum",params:{comparison:">=",limit:.002}};
e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:s+"/oval/3",schemaPath:"#/properties/oval/items/3/type",keyword:"type",params:{type:"number"}};e===null?e=
[m]:e.push(m),t++}}}else{let r={instancePath:s+"/oval",schemaPath:"#/properties/oval/type",keyword:"type",params:{type:"array"}};e===null?e=[r]:e.push(r),t++}}if(a.
polygon!==void 0){let i=a.polygon;if(Array.isArray(i)){if(i.length>64){let n={instancePath:s+"/polygon",schemaPath:"#/properties/polygon/maxItems",keyword:"maxI\
tems",params:{limit:64}};e===null?e=[n]:e.push(n),t++}if(i.length<3){let n={instancePath:s+"/polygon",schemaPath:"#/properties/polygon/minItems",keyword:"minIte\
ms",params:{limit:3}};e===null?e=[n]:e.push(n),t++}let r=i.length;for(let n=0;n<r;n++)v(i[n],{instancePath:s+"/polygon/"+n,parentData:i,parentDataProperty:n,rootData:o})||
(e=e===null?v.errors:e.concat(v.errors),t=e.length)}else{let r={instancePath:s+"/polygon",schemaPath:"#/properties/polygon/type",keyword:"type",params:{type:"ar\
ray"}};e===null?e=[r]:e.push(r),t++}}if(a.turn!==void 0){let i=a.turn;if(typeof i=="number"&&isFinite(i)){if(i>180||isNaN(i)){let r={instancePath:s+"/turn",schemaPath:"\
#/properties/turn/maximum",keyword:"maximum",params:{comparison:"<=",limit:180}};e===null?e=[r]:e.push(r),t++}if(i<-180||isNaN(i)){let r={instancePath:s+"/turn",
schemaPath:"#/properties/turn/minimum",keyword:"minimum",params:{comparison:">=",limit:-180}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/turn",schemaPath:"\
#/properties/turn/type",keyword:"type",params:{type:"number"}};e===null?e=[r]:e.push(r),t++}}if(a.feather!==void 0){let i=a.feather;if(typeof i=="number"&&isFinite(
i)){if(i>1||isNaN(i)){let r={instancePath:s+"/feather",schemaPath:"#/properties/feather/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=
[r]:e.push(r),t++}if(i<0||isNaN(i)){let r={instancePath:s+"/feather",schemaPath:"#/properties/feather/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};
e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/feather",schemaPath:"#/properties/feather/type",keyword:"type",params:{type:"number"}};e===null?e=[r]:
e.push(r),t++}}if(a.exposure!==void 0){let i=a.exposure;if(typeof i=="number"&&isFinite(i)){if(i>5||isNaN(i)){let r={instancePath:s+"/exposure",schemaPath:"#/pr\
operties/exposure/maximum",keyword:"maximum",params:{comparison:"<=",limit:5}};e===null?e=[r]:e.push(r),t++}if(i<-5||isNaN(i)){let r={instancePath:s+"/exposure",
schemaPath:"#/properties/exposure/minimum",keyword:"minimum",params:{comparison:">=",limit:-5}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/expos\
ure",schemaPath:"#/properties/exposure/type",keyword:"type",params:{type:"number"}};e===null?e=[r]:e.push(r),t++}}if(a.filtration!==void 0&&(q(a.filtration,{instancePath:s+
"/filtration",parentData:a,parentDataProperty:"filtration",rootData:o})||(e=e===null?q.errors:e.concat(q.errors),t=e.length)),a.contrast!==void 0){let i=a.contrast;
if(typeof i=="number"&&isFinite(i)){if(i>4||isNaN(i)){let r={instancePath:s+"/contrast",schemaPath:"#/properties/contrast/maximum",keyword:"maximum",params:{comparison:"\
<=",limit:4}};e===null?e=[r]:e.push(r),t++}if(i<.25||isNaN(i)){let r={instancePath:s+"/contrast",schemaPath:"#/properties/contrast/minimum",keyword:"minimum",params:{
comparison:">=",limit:.25}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/contrast",schemaPath:"#/properties/contrast/type",keyword:"type",params:{
type:"number"}};e===null?e=[r]:e.push(r),t++}}}else{let i={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[i]:e.push(i),t++}
return K.errors=e,t===0}var Ne=new RegExp("^(R([4-9][0-9]|1[0-9]{2}|2[0-4][0-9]|250)|grade (-1|[0-5]))$","u");function k(a,{instancePath:s="",parentData:h,parentDataProperty:f,
rootData:o=a}={}){let e=null,t=0;if(a&&typeof a=="object"&&!Array.isArray(a)){for(let i in a)if(!x.call(ne.properties,i)){let r={instancePath:s,schemaPath:"#/ad\
ditionalProperties",keyword:"additionalProperties",params:{additionalProperty:i}};e===null?e=[r]:e.push(r),t++}if(a.exposure!==void 0){let i=a.exposure;if(typeof i==
"number"&&isFinite(i)){if(i>10||isNaN(i)){let r={instancePath:s+"/exposure",schemaPath:"#/properties/exposure/maximum",keyword:"maximum",params:{comparison:"<=",
limit:10}};e===null?e=[r]:e.push(r),t++}if(i<-10||isNaN(i)){let r={instancePath:s+"/exposure",schemaPath:"#/properties/exposure/minimum",keyword:"minimum",params:{
comparison:">=",limit:-10}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/exposure",schemaPath:"#/properties/exposure/type",keyword:"type",params:{
type:"number"}};e===null?e=[r]:e.push(r),t++}}if(a.filtration!==void 0&&(q(a.filtration,{instancePath:s+"/filtration",parentData:a,parentDataProperty:"filtratio\
n",rootData:o})||(e=e===null?q.errors:e.concat(q.errors),t=e.length)),a.contrast!==void 0){let i=a.contrast;if(!(typeof i=="number"&&isFinite(i))&&typeof i!="st\
ring"){let r={instancePath:s+"/contrast",schemaPath:"#/properties/contrast/type",keyword:"type",params:{type:ne.properties.contrast.type}};e===null?e=[r]:e.push(
r),t++}if(typeof i=="number"&&isFinite(i)){if(i>5||isNaN(i)){let r={instancePath:s+"/contrast",schemaPath:"#/properties/contrast/maximum",keyword:"maximum",params:{
comparison:"<=",limit:5}};e===null?e=[r]:e.push(r),t++}if(i<.2||isNaN(i)){let r={instancePath:s+"/contrast",schemaPath:"#/properties/contrast/minimum",keyword:"\
minimum",params:{comparison:">=",limit:.2}};e===null?e=[r]:e.push(r),t++}}if(typeof i=="string"&&!Ne.test(i)){let r={instancePath:s+"/contrast",schemaPath:"#/pr\
operties/contrast/pattern",keyword:"pattern",params:{pattern:"^(R([4-9][0-9]|1[0-9]{2}|2[0-4][0-9]|250)|grade (-1|[0-5]))$"}};e===null?e=[r]:e.push(r),t++}}if(a.
toe!==void 0){let i=a.toe;if(typeof i=="number"&&isFinite(i)){if(i>1||isNaN(i)){let r={instancePath:s+"/toe",schemaPath:"#/properties/toe/maximum",keyword:"maxi\
mum",params:{comparison:"<=",limit:1}};e===null?e=[r]:e.push(r),t++}if(i<-1||isNaN(i)){let r={instancePath:s+"/toe",schemaPath:"#/properties/toe/minimum",keyword:"\
minimum",params:{comparison:">=",limit:-1}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/toe",schemaPath:"#/properties/toe/type",keyword:"type",params:{
type:"number"}};e===null?e=[r]:e.push(r),t++}}if(a.shoulder!==void 0){let i=a.shoulder;if(typeof i=="number"&&isFinite(i)){if(i>1||isNaN(i)){let r={instancePath:s+
"/shoulder",schemaPath:"#/properties/shoulder/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[r]:e.push(r),t++}if(i<-1||isNaN(i)){let r={
instancePath:s+"/shoulder",schemaPath:"#/properties/shoulder/minimum",keyword:"minimum",params:{comparison:">=",limit:-1}};e===null?e=[r]:e.push(r),t++}}else{let r={
instancePath:s+"/shoulder",schemaPath:"#/properties/shoulder/type",keyword:"type",params:{type:"number"}};e===null?e=[r]:e.push(r),t++}}if(a.black!==void 0){let i=a.
black;if(typeof i=="number"&&isFinite(i)){if(i>30||isNaN(i)){let r={instancePath:s+"/black",schemaPath:"#/properties/black/maximum",keyword:"maximum",params:{comparison:"\
<=",limit:30}};e===null?e=[r]:e.push(r),t++}if(i<0||isNaN(i)){let r={instancePath:s+"/black",schemaPath:"#/properties/black/minimum",keyword:"minimum",params:{comparison:"\
>=",limit:0}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/black",schemaPath:"#/properties/black/type",keyword:"type",params:{type:"number"}};e===
null?e=[r]:e.push(r),t++}}if(a.saturation!==void 0){let i=a.saturation;if(typeof i=="number"&&isFinite(i)){if(i>3||isNaN(i)){let r={instancePath:s+"/saturation",
schemaPath:"#/properties/saturation/maximum",keyword:"maximum",params:{comparison:"<=",limit:3}};e===null?e=[r]:e.push(r),t++}if(i<0||isNaN(i)){let r={instancePath:s+
"/saturation",schemaPath:"#/properties/saturation/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+
"/saturation",schemaPath:"#/properties/saturation/type",keyword:"type",params:{type:"number"}};e===null?e=[r]:e.push(r),t++}}if(a.toning!==void 0&&(J(a.toning,{
instancePath:s+"/toning",parentData:a,parentDataProperty:"toning",rootData:o})||(e=e===null?J.errors:e.concat(J.errors),t=e.length)),a.curve!==void 0){let i=a.curve;
if(Array.isArray(i)){if(i.length>64){let n={instancePath:s+"/curve",schemaPath:"#/properties/curve/maxItems",keyword:"maxItems",params:{limit:64}};e===null?e=[n]:
e.push(n),t++}let r=i.length;for(let n=0;n<r;n++){let m=i[n];if(Array.isArray(m)){if(m.length>2){let l={instancePath:s+"/curve/"+n,schemaPath:"#/properties/curv\
e/items/maxItems",keyword:"maxItems",params:{limit:2}};e===null?e=[l]:e.push(l),t++}if(m.length<2){let l={instancePath:s+"/curve/"+n,schemaPath:"#/properties/cu\
rve/items/minItems",keyword:"minItems",params:{limit:2}};e===null?e=[l]:e.push(l),t++}let p=m.length;if(p>0){let l=m[0];if(typeof l=="number"&&isFinite(l)){if(l>
100||isNaN(l)){let u={instancePath:s+"/curve/"+n+"/0",schemaPath:"#/properties/curve/items/items/0/maximum",keyword:"maximum",params:{comparison:"<=",limit:100}};
e===null?e=[u]:e.push(u),t++}if(l<0||isNaN(l)){let u={instancePath:s+"/curve/"+n+"/0",schemaPath:"#/properties/curve/items/items/0/minimum",keyword:"minimum",params:{
comparison:">=",limit:0}};e===null?e=[u]:e.push(u),t++}}else{let u={instancePath:s+"/curve/"+n+"/0",schemaPath:"#/properties/curve/items/items/0/type",keyword:"\
type",params:{type:"number"}};e===null?e=[u]:e.push(u),t++}}if(p>1){let l=m[1];if(typeof l=="number"&&isFinite(l)){if(l>100||isNaN(l)){let u={instancePath:s+"/c\
urve/"+n+"/1",schemaPath:"#/properties/curve/items/items/1/maximum",keyword:"maximum",params:{comparison:"<=",limit:100}};e===null?e=[u]:e.push(u),t++}if(l<0||isNaN(
l)){let u={instancePath:s+"/curve/"+n+"/1",schemaPath:"#/properties/curve/items/items/1/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=
[u]:e.push(u),t++}}else{let u={instancePath:s+"/curve/"+n+"/1",schemaPath:"#/properties/curve/items/items/1/type",keyword:"type",params:{type:"number"}};e===null?
e=[u]:e.push(u),t++}}}else{let p={instancePath:s+"/curve/"+n,schemaPath:"#/properties/curve/items/type",keyword:"type",params:{type:"array"}};e===null?e=[p]:e.push(
p),t++}}}else{let r={instancePath:s+"/curve",schemaPath:"#/properties/curve/type",keyword:"type",params:{type:"array"}};e===null?e=[r]:e.push(r),t++}}if(a.local!==
void 0){let i=a.local;if(Array.isArray(i)){if(i.length>64){let n={instancePath:s+"/local",schemaPath:"#/properties/local/maxItems",keyword:"maxItems",params:{limit:64}};
e===null?e=[n]:e.push(n),t++}let r=i.length;for(let n=0;n<r;n++)K(i[n],{instancePath:s+"/local/"+n,parentData:i,parentDataProperty:n,rootData:o})||(e=e===null?K.
errors:e.concat(K.errors),t=e.length)}else{let r={instancePath:s+"/local",schemaPath:"#/properties/local/type",keyword:"type",params:{type:"array"}};e===null?e=
[r]:e.push(r),t++}}}else{let i={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[i]:e.push(i),t++}return k.errors=e,t===0}var R={type:"object",additionalProperties:!1,required:["name","type"],properties:{name:{type:"string",pattern:"^[A-Za-z0-9][A-Za-z0-9 _.-]{0,62}$"},type:{enum:[
"tiff","jpeg","png","webp","avif"]},file:{type:"string",maxLength:120,pattern:'^(?:[^{}\\\\/:*?"<>|\\u0000-\\u001f\\u007f-\\u009f]|\\{(?:roll|frame|title|scan|output)\\\
})+$'},depth:{enum:[8,16]},quality:{type:"integer",minimum:1,maximum:100},space:{enum:["srgb","p3","adobe","romm"]},long:{type:"integer",minimum:16,maximum:6e4},
sharpen:{type:"number",minimum:0,maximum:1},compression:{enum:["none","deflate"]},print:{$ref:"#/definitions/print"}}},ve=new RegExp("^[A-Za-z0-9][A-Za-z0-9 _.-\
]{0,62}$","u"),Ie=new RegExp('^(?:[^{}\\\\/:*?"<>|\\u0000-\\u001f\\u007f-\\u009f]|\\{(?:roll|frame|title|scan|output)\\})+$',"u"),H={type:"object",additionalProperties:!1,
required:["paper"],properties:{paper:{type:["string","array"],items:{type:"number",minimum:30,maximum:3e3},minItems:2,maxItems:2,pattern:"^(?:A6|A5|A4|A3|A2|9x1\
3cm|10x15cm|13x18cm|18x24cm|24x30cm|30x40cm|40x50cm|50x60cm|4x6in|5x7in|8x10in|8x12in|8\\.5x11in|11x14in|11x17in|12x16in|16x20in|20x24in)$",examples:["A6","A5",
"A4","A3","A2","9x13cm","10x15cm","13x18cm","18x24cm","24x30cm","30x40cm","40x50cm","50x60cm","4x6in","5x7in","8x10in","8x12in","8.5x11in","11x14in","11x17in","\
12x16in","16x20in","20x24in"]},orientation:{enum:["picture","portrait","landscape"]},border:{type:["number","array"],minimum:0,maximum:500,items:{type:"number",
minimum:0,maximum:500},minItems:4,maxItems:4},fit:{enum:["whole","fill"]},length:{type:"number",minimum:10,maximum:3e3},place:{type:"array",minItems:2,maxItems:2,
items:{type:"number",minimum:0,maximum:1}},resolution:{type:"integer",minimum:72,maximum:1440},profile:{type:"string",minLength:1},intent:{enum:["perceptual","r\
elative-colorimetric","saturation","absolute-colorimetric"]},blackPointCompensation:{type:"boolean"}}},Ae=new RegExp("^(?:A6|A5|A4|A3|A2|9x13cm|10x15cm|13x18cm|\
18x24cm|24x30cm|30x40cm|40x50cm|50x60cm|4x6in|5x7in|8x10in|8x12in|8\\.5x11in|11x14in|11x17in|12x16in|16x20in|20x24in)$","u");function Q(a,{instancePath:s="",parentData:h,
parentDataProperty:f,rootData:o=a}={}){let e=null,t=0;if(a&&typeof a=="object"&&!Array.isArray(a)){if(a.paper===void 0){let i={instancePath:s,schemaPath:"#/requ\
ired",keyword:"required",params:{missingProperty:"paper"}};e===null?e=[i]:e.push(i),t++}for(let i in a)if(!x.call(H.properties,i)){let r={instancePath:s,schemaPath:"\
#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:i}};e===null?e=[r]:e.push(r),t++}if(a.paper!==void 0){let i=a.paper;if(typeof i!=
"string"&&!Array.isArray(i)){let r={instancePath:s+"/paper",schemaPath:"#/properties/paper/type",keyword:"type",params:{type:H.properties.paper.type}};e===null?
e=[r]:e.push(r),t++}if(typeof i=="string"&&!Ae.test(i)){let r={instancePath:s+"/paper",schemaPath:"#/properties/paper/pattern",keyword:"pattern",params:{pattern:"\
^(?:A6|A5|A4|A3|A2|9x13cm|10x15cm|13x18cm|18x24cm|24x30cm|30x40cm|40x50cm|50x60cm|4x6in|5x7in|8x10in|8x12in|8\\.5x11in|11x14in|11x17in|12x16in|16x20in|20x24in)$"}};
e===null?e=[r]:e.push(r),t++}if(Array.isArray(i)){if(i.length>2){let n={instancePath:s+"/paper",schemaPath:"#/properties/paper/maxItems",keyword:"maxItems",params:{
limit:2}};e===null?e=[n]:e.push(n),t++}if(i.length<2){let n={instancePath:s+"/paper",schemaPath:"#/properties/paper/minItems",keyword:"minItems",params:{limit:2}};
e===null?e=[n]:e.push(n),t++}let r=i.length;for(let n=0;n<r;n++){let m=i[n];if(typeof m=="number"&&isFinite(m)){if(m>3e3||isNaN(m)){let p={instancePath:s+"/pape\
r/"+n,schemaPath:"#/properties/paper/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:3e3}};e===null?e=[p]:e.push(p),t++}if(m<30||isNaN(m)){let p={
instancePath:s+"/paper/"+n,schemaPath:"#/properties/paper/items/minimum",keyword:"minimum",params:{comparison:">=",limit:30}};e===null?e=[p]:e.push(p),t++}}else{
let p={instancePath:s+"/paper/"+n,schemaPath:"#/properties/paper/items/type",keyword:"type",params:{type:"number"}};e===null?e=[p]:e.push(p),t++}}}}if(a.orientation!==
void 0){let i=a.orientation;if(!(i==="picture"||i==="portrait"||i==="landscape")){let r={instancePath:s+"/orientation",schemaPath:"#/properties/orientation/enum",
keyword:"enum",params:{allowedValues:H.properties.orientation.enum}};e===null?e=[r]:e.push(r),t++}}if(a.border!==void 0){let i=a.border;if(!(typeof i=="number"&&
isFinite(i))&&!Array.isArray(i)){let r={instancePath:s+"/border",schemaPath:"#/properties/border/type",keyword:"type",params:{type:H.properties.border.type}};e===
null?e=[r]:e.push(r),t++}if(typeof i=="number"&&isFinite(i)){if(i>500||isNaN(i)){let r={instancePath:s+"/border",schemaPath:"#/properties/border/maximum",keyword:"\
maximum",params:{comparison:"<=",limit:500}};e===null?e=[r]:e.push(r),t++}if(i<0||isNaN(i)){let r={instancePath:s+"/border",schemaPath:"#/properties/border/mini\
mum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[r]:e.push(r),t++}}if(Array.isArray(i)){if(i.length>4){let n={instancePath:s+"/border",schemaPath:"\
#/properties/border/maxItems",keyword:"maxItems",params:{limit:4}};e===null?e=[n]:e.push(n),t++}if(i.length<4){let n={instancePath:s+"/border",schemaPath:"#/pro\
perties/border/minItems",keyword:"minItems",params:{limit:4}};e===null?e=[n]:e.push(n),t++}let r=i.length;for(let n=0;n<r;n++){let m=i[n];if(typeof m=="number"&&
isFinite(m)){if(m>500||isNaN(m)){let p={instancePath:s+"/border/"+n,schemaPath:"#/properties/border/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:500}};
e===null?e=[p]:e.push(p),t++}if(m<0||isNaN(m)){let p={instancePath:s+"/border/"+n,schemaPath:"#/properties/border/items/minimum",keyword:"minimum",params:{comparison:"\
>=",limit:0}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:s+"/border/"+n,schemaPath:"#/properties/border/items/type",keyword:"type",params:{type:"num\
ber"}};e===null?e=[p]:e.push(p),t++}}}}if(a.fit!==void 0){let i=a.fit;if(!(i==="whole"||i==="fill")){let r={instancePath:s+"/fit",schemaPath:"#/properties/fit/e\
num",keyword:"enum",params:{allowedValues:H.properties.fit.enum}};e===null?e=[r]:e.push(r),t++}}if(a.length!==void 0){let i=a.length;if(typeof i=="number"&&isFinite(
i)){if(i>3e3||isNaN(i)){let r={instancePath:s+"/length",schemaPath:"#/properties/length/maximum",keyword:"maximum",params:{comparison:"<=",limit:3e3}};e===null?
e=[r]:e.push(r),t++}if(i<10||isNaN(i)){let r={instancePath:s+"/length",schemaPath:"#/properties/length/minimum",keyword:"minimum",params:{comparison:">=",limit:10}};
e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/length",schemaPath:"#/properties/length/type",keyword:"type",params:{type:"number"}};e===null?e=[r]:e.
push(r),t++}}if(a.place!==void 0){let i=a.place;if(Array.isArray(i)){if(i.length>2){let n={instancePath:s+"/place",schemaPath:"#/properties/place/maxItems",keyword:"\
maxItems",params:{limit:2}};e===null?e=[n]:e.push(n),t++}if(i.length<2){let n={instancePath:s+"/place",schemaPath:"#/properties/place/minItems",keyword:"minItem\
s",params:{limit:2}};e===null?e=[n]:e.push(n),t++}let r=i.length;for(let n=0;n<r;n++){let m=i[n];if(typeof m=="number"&&isFinite(m)){if(m>1||isNaN(m)){let p={instancePath:s+
"/place/"+n,schemaPath:"#/properties/place/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[p]:e.push(p),t++}if(m<0||isNaN(m)){let p={
instancePath:s+"/place/"+n,schemaPath:"#/properties/place/items/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[p]:e.push(p),t++}}else{
let p={instancePath:s+"/place/"+n,schemaPath:"#/properties/place/items/type",keyword:"type",params:{type:"number"}};e===null?e=[p]:e.push(p),t++}}}else{let r={instancePath:s+
"/place",schemaPath:"#/properties/place/type",keyword:"type",params:{type:"array"}};e===null?e=[r]:e.push(r),t++}}if(a.resolution!==void 0){let i=a.resolution;if(!(typeof i==
"number"&&!(i%1)&&!isNaN(i)&&isFinite(i))){let r={instancePath:s+"/resolution",schemaPath:"#/properties/resolution/type",keyword:"type",params:{type:"integer"}};
e===null?e=[r]:e.push(r),t++}if(typeof i=="number"&&isFinite(i)){if(i>1440||isNaN(i)){let r={instancePath:s+"/resolution",schemaPath:"#/properties/resolution/ma\
ximum",keyword:"maximum",params:{comparison:"<=",limit:1440}};e===null?e=[r]:e.push(r),t++}if(i<72||isNaN(i)){let r={instancePath:s+"/resolution",schemaPath:"#/\
properties/resolution/minimum",keyword:"minimum",params:{comparison:">=",limit:72}};e===null?e=[r]:e.push(r),t++}}}if(a.profile!==void 0){let i=a.profile;if(typeof i==
"string"){if(y(i)<1){let r={instancePath:s+"/profile",schemaPath:"#/properties/profile/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[r]:e.push(r),
t++}}else{let r={instancePath:s+"/profile",schemaPath:"#/properties/profile/type",keyword:"type",params:{type:"string"}};e===null?e=[r]:e.push(r),t++}}if(a.intent!==
void 0){let i=a.intent;if(!(i==="perceptual"||i==="relative-colorimetric"||i==="saturation"||i==="absolute-colorimetric")){let r={instancePath:s+"/intent",schemaPath:"\
#/properties/intent/enum",keyword:"enum",params:{allowedValues:H.properties.intent.enum}};e===null?e=[r]:e.push(r),t++}}if(a.blackPointCompensation!==void 0&&typeof a.
blackPointCompensation!="boolean"){let i={instancePath:s+"/blackPointCompensation",schemaPath:"#/properties/blackPointCompensation/type",keyword:"type",params:{
type:"boolean"}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[i]:e.push(i),t++}
return Q.errors=e,t===0}function S(a,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=a}={}){let e=null,t=0;if(a&&typeof a=="object"&&!Array.isArray(
a)){if(a.name===void 0){let i={instancePath:s,schemaPath:"#/required",keyword:"required",params:{missingProperty:"name"}};e===null?e=[i]:e.push(i),t++}if(a.type===
void 0){let i={instancePath:s,schemaPath:"#/required",keyword:"required",params:{missingProperty:"type"}};e===null?e=[i]:e.push(i),t++}for(let i in a)if(!x.call(
R.properties,i)){let r={instancePath:s,schemaPath:"#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:i}};e===null?e=[r]:e.push(r),
t++}if(a.name!==void 0){let i=a.name;if(typeof i=="string"){if(!ve.test(i)){let r={instancePath:s+"/name",schemaPath:"#/properties/name/pattern",keyword:"patter\
n",params:{pattern:"^[A-Za-z0-9][A-Za-z0-9 _.-]{0,62}$"}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/name",schemaPath:"#/properties/name/type",keyword:"\
type",params:{type:"string"}};e===null?e=[r]:e.push(r),t++}}if(a.type!==void 0){let i=a.type;if(!(i==="tiff"||i==="jpeg"||i==="png"||i==="webp"||i==="avif")){let r={
instancePath:s+"/type",schemaPath:"#/properties/type/enum",keyword:"enum",params:{allowedValues:R.properties.type.enum}};e===null?e=[r]:e.push(r),t++}}if(a.file!==
void 0){let i=a.file;if(typeof i=="string"){if(y(i)>120){let r={instancePath:s+"/file",schemaPath:"#/properties/file/maxLength",keyword:"maxLength",params:{limit:120}};
e===null?e=[r]:e.push(r),t++}if(!Ie.test(i)){let r={instancePath:s+"/file",schemaPath:"#/properties/file/pattern",keyword:"pattern",params:{pattern:'^(?:[^{}\\\\/\
:*?"<>|\\u0000-\\u001f\\u007f-\\u009f]|\\{(?:roll|frame|title|scan|output)\\})+$'}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/file",schemaPath:"\
#/properties/file/type",keyword:"type",params:{type:"string"}};e===null?e=[r]:e.push(r),t++}}if(a.depth!==void 0){let i=a.depth;if(!(i===8||i===16)){let r={instancePath:s+
"/depth",schemaPath:"#/properties/depth/enum",keyword:"enum",params:{allowedValues:R.properties.depth.enum}};e===null?e=[r]:e.push(r),t++}}if(a.quality!==void 0){
let i=a.quality;if(!(typeof i=="number"&&!(i%1)&&!isNaN(i)&&isFinite(i))){let r={instancePath:s+"/quality",schemaPath:"#/properties/quality/type",keyword:"type",
params:{type:"integer"}};e===null?e=[r]:e.push(r),t++}if(typeof i=="number"&&isFinite(i)){if(i>100||isNaN(i)){let r={instancePath:s+"/quality",schemaPath:"#/pro\
perties/quality/maximum",keyword:"maximum",params:{comparison:"<=",limit:100}};e===null?e=[r]:e.push(r),t++}if(i<1||isNaN(i)){let r={instancePath:s+"/quality",schemaPath:"\
#/properties/quality/minimum",keyword:"minimum",params:{comparison:">=",limit:1}};e===null?e=[r]:e.push(r),t++}}}if(a.space!==void 0){let i=a.space;if(!(i==="sr\
gb"||i==="p3"||i==="adobe"||i==="romm")){let r={instancePath:s+"/space",schemaPath:"#/properties/space/enum",keyword:"enum",params:{allowedValues:R.properties.space.
enum}};e===null?e=[r]:e.push(r),t++}}if(a.long!==void 0){let i=a.long;if(!(typeof i=="number"&&!(i%1)&&!isNaN(i)&&isFinite(i))){let r={instancePath:s+"/long",schemaPath:"\
#/properties/long/type",keyword:"type",params:{type:"integer"}};e===null?e=[r]:e.push(r),t++}if(typeof i=="number"&&isFinite(i)){if(i>6e4||isNaN(i)){let r={instancePath:s+
"/long",schemaPath:"#/properties/long/maximum",keyword:"maximum",params:{comparison:"<=",limit:6e4}};e===null?e=[r]:e.push(r),t++}if(i<16||isNaN(i)){let r={instancePath:s+
"/long",schemaPath:"#/properties/long/minimum",keyword:"minimum",params:{comparison:">=",limit:16}};e===null?e=[r]:e.push(r),t++}}}if(a.sharpen!==void 0){let i=a.
sharpen;if(typeof i=="number"&&isFinite(i)){if(i>1||isNaN(i)){let r={instancePath:s+"/sharpen",schemaPath:"#/properties/sharpen/maximum",keyword:"maximum",params:{
comparison:"<=",limit:1}};e===null?e=[r]:e.push(r),t++}if(i<0||isNaN(i)){let r={instancePath:s+"/sharpen",schemaPath:"#/properties/sharpen/minimum",keyword:"min\
imum",params:{comparison:">=",limit:0}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/sharpen",schemaPath:"#/properties/sharpen/type",keyword:"type",
params:{type:"number"}};e===null?e=[r]:e.push(r),t++}}if(a.compression!==void 0){let i=a.compression;if(!(i==="none"||i==="deflate")){let r={instancePath:s+"/co\
mpression",schemaPath:"#/properties/compression/enum",keyword:"enum",params:{allowedValues:R.properties.compression.enum}};e===null?e=[r]:e.push(r),t++}}a.print!==
void 0&&(Q(a.print,{instancePath:s+"/print",parentData:a,parentDataProperty:"print",rootData:o})||(e=e===null?Q.errors:e.concat(Q.errors),t=e.length))}else{let i={
instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[i]:e.push(i),t++}return S.errors=e,t===0}function E(a,{instancePath:s="",parentData:h,
parentDataProperty:f,rootData:o=a}={}){let e=null,t=0;if(Array.isArray(a)){if(a.length>32){let r={instancePath:s,schemaPath:"#/maxItems",keyword:"maxItems",params:{
limit:32}};e===null?e=[r]:e.push(r),t++}let i=a.length;for(let r=0;r<i;r++)S(a[r],{instancePath:s+"/"+r,parentData:a,parentDataProperty:r,rootData:o})||(e=e===null?
S.errors:e.concat(S.errors),t=e.length)}else{let i={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(i),t++}return E.
errors=e,t===0}var Z={type:"object",additionalProperties:!1,properties:{scan:{type:"string",minLength:1},scans:{type:"array",minItems:1,maxItems:64,items:{type:"\
string",minLength:1}},exposures:{type:"array",minItems:1,maxItems:16,items:{type:"string",minLength:1}},channels:{type:"object",additionalProperties:!1,required:[
"red","green","blue"],properties:{red:{type:"string",minLength:1},green:{type:"string",minLength:1},blue:{type:"string",minLength:1}}},unused:{type:"array",minItems:1,
maxItems:64,items:{type:"string",minLength:1}},join:{type:"array",minItems:1,maxItems:64,items:{type:"array",minItems:3,maxItems:4,items:[{type:"number",minimum:-2e5,
maximum:2e5},{type:"number",minimum:-2e5,maximum:2e5},{type:"number",minimum:-45,maximum:45},{type:["number","array"],minimum:-4,maximum:4,items:{type:"number",
minimum:-4,maximum:4},minItems:3,maxItems:3}]}},area:{$ref:"#/definitions/frameArea"},turn:{enum:[0,90,180,270]},mirror:{type:"boolean"},skip:{type:"boolean"},choice:{
enum:["keep","reject"]},rank:{enum:[1,2,3,4,5]},light:{$ref:"#/definitions/light"},negative:{$ref:"#/definitions/negative"},positive:{$ref:"#/definitions/positi\
ve"},spots:{$ref:"#/definitions/spots"},title:{type:"string",maxLength:200},exposed:{$ref:"#/definitions/exposed"},iptc:{$ref:"#/definitions/iptc"},note:{$ref:"\
#/definitions/note"}}};function U(a,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=a}={}){let e=null,t=0;if(a&&typeof a=="object"&&!Array.isArray(a)){for(let i in a)if(!(i===
"left"||i==="top"||i==="width"||i==="height"||i==="tilt")){let r={instancePath:s,schemaPath:"#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:i}};
e===null?e=[r]:e.push(r),t++}if(a.left!==void 0){let i=a.left;if(typeof i=="number"&&isFinite(i)){if(i>1||isNaN(i)){let r={instancePath:s+"/left",schemaPath:"#/\
properties/left/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[r]:e.push(r),t++}if(i<0||isNaN(i)){let r={instancePath:s+"/left",schemaPath:"\
#/properties/left/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/left",schemaPath:"#/pr\
operties/left/type",keyword:"type",params:{type:"number"}};e===null?e=[r]:e.push(r),t++}}if(a.top!==void 0){let i=a.top;if(typeof i=="number"&&isFinite(i)){if(i>
1||isNaN(i)){let r={instancePath:s+"/top",schemaPath:"#/properties/top/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[r]:e.push(r),t++}
if(i<0||isNaN(i)){let r={instancePath:s+"/top",schemaPath:"#/properties/top/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[r]:e.push(r),
t++}}else{let r={instancePath:s+"/top",schemaPath:"#/properties/top/type",keyword:"type",params:{type:"number"}};e===null?e=[r]:e.push(r),t++}}if(a.width!==void 0){
let i=a.width;if(typeof i=="number"&&isFinite(i)){if(i>1||isNaN(i)){let r={instancePath:s+"/width",schemaPath:"#/properties/width/maximum",keyword:"maximum",params:{
comparison:"<=",limit:1}};e===null?e=[r]:e.push(r),t++}if(i<.001||isNaN(i)){let r={instancePath:s+"/width",schemaPath:"#/properties/width/minimum",keyword:"mini\
mum",params:{comparison:">=",limit:.001}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/width",schemaPath:"#/properties/width/type",keyword:"type",
params:{type:"number"}};e===null?e=[r]:e.push(r),t++}}if(a.height!==void 0){let i=a.height;if(typeof i=="number"&&isFinite(i)){if(i>1||isNaN(i)){let r={instancePath:s+
"/height",schemaPath:"#/properties/height/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[r]:e.push(r),t++}if(i<.001||isNaN(i)){let r={
instancePath:s+"/height",schemaPath:"#/properties/height/minimum",keyword:"minimum",params:{comparison:">=",limit:.001}};e===null?e=[r]:e.push(r),t++}}else{let r={
instancePath:s+"/height",schemaPath:"#/properties/height/type",keyword:"type",params:{type:"number"}};e===null?e=[r]:e.push(r),t++}}if(a.tilt!==void 0){let i=a.
tilt;if(typeof i=="number"&&isFinite(i)){if(i>45||isNaN(i)){let r={instancePath:s+"/tilt",schemaPath:"#/properties/tilt/maximum",keyword:"maximum",params:{comparison:"\
<=",limit:45}};e===null?e=[r]:e.push(r),t++}if(i<-45||isNaN(i)){let r={instancePath:s+"/tilt",schemaPath:"#/properties/tilt/minimum",keyword:"minimum",params:{comparison:"\
>=",limit:-45}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/tilt",schemaPath:"#/properties/tilt/type",keyword:"type",params:{type:"number"}};e===
null?e=[r]:e.push(r),t++}}}else{let i={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[i]:e.push(i),t++}return U.errors=e,
t===0}function w(a,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=a}={}){let e=null,t=0;if(typeof a=="string"){if(y(a)>2e4){let i={instancePath:s,schemaPath:"\
#/maxLength",keyword:"maxLength",params:{limit:2e4}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"s\
tring"}};e===null?e=[i]:e.push(i),t++}return w.errors=e,t===0}function W(a,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=a}={}){let e=null,t=0;
if(a&&typeof a=="object"&&!Array.isArray(a)){for(let i in a)if(!x.call(Z.properties,i)){let r={instancePath:s,schemaPath:"#/additionalProperties",keyword:"addit\
ionalProperties",params:{additionalProperty:i}};e===null?e=[r]:e.push(r),t++}if(a.scan!==void 0){let i=a.scan;if(typeof i=="string"){if(y(i)<1){let r={instancePath:s+
"/scan",schemaPath:"#/properties/scan/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/scan",schemaPath:"\
#/properties/scan/type",keyword:"type",params:{type:"string"}};e===null?e=[r]:e.push(r),t++}}if(a.scans!==void 0){let i=a.scans;if(Array.isArray(i)){if(i.length>
64){let n={instancePath:s+"/scans",schemaPath:"#/properties/scans/maxItems",keyword:"maxItems",params:{limit:64}};e===null?e=[n]:e.push(n),t++}if(i.length<1){let n={
instancePath:s+"/scans",schemaPath:"#/properties/scans/minItems",keyword:"minItems",params:{limit:1}};e===null?e=[n]:e.push(n),t++}let r=i.length;for(let n=0;n<
r;n++){let m=i[n];if(typeof m=="string"){if(y(m)<1){let p={instancePath:s+"/scans/"+n,schemaPath:"#/properties/scans/items/minLength",keyword:"minLength",params:{
limit:1}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:s+"/scans/"+n,schemaPath:"#/properties/scans/items/type",keyword:"type",params:{type:"string"}};
e===null?e=[p]:e.push(p),t++}}}else{let r={instancePath:s+"/scans",schemaPath:"#/properties/scans/type",keyword:"type",params:{type:"array"}};e===null?e=[r]:e.push(
r),t++}}if(a.exposures!==void 0){let i=a.exposures;if(Array.isArray(i)){if(i.length>16){let n={instancePath:s+"/exposures",schemaPath:"#/properties/exposures/ma\
xItems",keyword:"maxItems",params:{limit:16}};e===null?e=[n]:e.push(n),t++}if(i.length<1){let n={instancePath:s+"/exposures",schemaPath:"#/properties/exposures/\
minItems",keyword:"minItems",params:{limit:1}};e===null?e=[n]:e.push(n),t++}let r=i.length;for(let n=0;n<r;n++){let m=i[n];if(typeof m=="string"){if(y(m)<1){let p={
instancePath:s+"/exposures/"+n,schemaPath:"#/properties/exposures/items/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[p]:e.push(p),t++}}else{let p={
instancePath:s+"/exposures/"+n,schemaPath:"#/properties/exposures/items/type",keyword:"type",params:{type:"string"}};e===null?e=[p]:e.push(p),t++}}}else{let r={
instancePath:s+"/exposures",schemaPath:"#/properties/exposures/type",keyword:"type",params:{type:"array"}};e===null?e=[r]:e.push(r),t++}}if(a.channels!==void 0){
let i=a.channels;if(i&&typeof i=="object"&&!Array.isArray(i)){if(i.red===void 0){let r={instancePath:s+"/channels",schemaPath:"#/properties/channels/required",keyword:"\
required",params:{missingProperty:"red"}};e===null?e=[r]:e.push(r),t++}if(i.green===void 0){let r={instancePath:s+"/channels",schemaPath:"#/properties/channels/\
required",keyword:"required",params:{missingProperty:"green"}};e===null?e=[r]:e.push(r),t++}if(i.blue===void 0){let r={instancePath:s+"/channels",schemaPath:"#/\
properties/channels/required",keyword:"required",params:{missingProperty:"blue"}};e===null?e=[r]:e.push(r),t++}for(let r in i)if(!(r==="red"||r==="green"||r==="\
blue")){let n={instancePath:s+"/channels",schemaPath:"#/properties/channels/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};
e===null?e=[n]:e.push(n),t++}if(i.red!==void 0){let r=i.red;if(typeof r=="string"){if(y(r)<1){let n={instancePath:s+"/channels/red",schemaPath:"#/properties/cha\
nnels/properties/red/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[n]:e.push(n),t++}}else{let n={instancePath:s+"/channels/red",schemaPath:"#/pro\
perties/channels/properties/red/type",keyword:"type",params:{type:"string"}};e===null?e=[n]:e.push(n),t++}}if(i.green!==void 0){let r=i.green;if(typeof r=="stri\
ng"){if(y(r)<1){let n={instancePath:s+"/channels/green",schemaPath:"#/properties/channels/properties/green/minLength",keyword:"minLength",params:{limit:1}};e===
null?e=[n]:e.push(n),t++}}else{let n={instancePath:s+"/channels/green",schemaPath:"#/properties/channels/properties/green/type",keyword:"type",params:{type:"str\
ing"}};e===null?e=[n]:e.push(n),t++}}if(i.blue!==void 0){let r=i.blue;if(typeof r=="string"){if(y(r)<1){let n={instancePath:s+"/channels/blue",schemaPath:"#/pro\
perties/channels/properties/blue/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[n]:e.push(n),t++}}else{let n={instancePath:s+"/channels/blue",schemaPath:"\
#/properties/channels/properties/blue/type",keyword:"type",params:{type:"string"}};e===null?e=[n]:e.push(n),t++}}}else{let r={instancePath:s+"/channels",schemaPath:"\
#/properties/channels/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}}if(a.unused!==void 0){let i=a.unused;if(Array.isArray(i)){if(i.
length>64){let n={instancePath:s+"/unused",schemaPath:"#/properties/unused/maxItems",keyword:"maxItems",params:{limit:64}};e===null?e=[n]:e.push(n),t++}if(i.length<
1){let n={instancePath:s+"/unused",schemaPath:"#/properties/unused/minItems",keyword:"minItems",params:{limit:1}};e===null?e=[n]:e.push(n),t++}let r=i.length;for(let n=0;n<
r;n++){let m=i[n];if(typeof m=="string"){if(y(m)<1){let p={instancePath:s+"/unused/"+n,schemaPath:"#/properties/unused/items/minLength",keyword:"minLength",params:{
limit:1}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:s+"/unused/"+n,schemaPath:"#/properties/unused/items/type",keyword:"type",params:{type:"string"}};
e===null?e=[p]:e.push(p),t++}}}else{let r={instancePath:s+"/unused",schemaPath:"#/properties/unused/type",keyword:"type",params:{type:"array"}};e===null?e=[r]:e.
push(r),t++}}if(a.join!==void 0){let i=a.join;if(Array.isArray(i)){if(i.length>64){let n={instancePath:s+"/join",schemaPath:"#/properties/join/maxItems",keyword:"\
maxItems",params:{limit:64}};e===null?e=[n]:e.push(n),t++}if(i.length<1){let n={instancePath:s+"/join",schemaPath:"#/properties/join/minItems",keyword:"minItems",
params:{limit:1}};e===null?e=[n]:e.push(n),t++}let r=i.length;for(let n=0;n<r;n++){let m=i[n];if(Array.isArray(m)){if(m.length>4){let l={instancePath:s+"/join/"+
n,schemaPath:"#/properties/join/items/maxItems",keyword:"maxItems",params:{limit:4}};e===null?e=[l]:e.push(l),t++}if(m.length<3){let l={instancePath:s+"/join/"+
n,schemaPath:"#/properties/join/items/minItems",keyword:"minItems",params:{limit:3}};e===null?e=[l]:e.push(l),t++}let p=m.length;if(p>0){let l=m[0];if(typeof l==
"number"&&isFinite(l)){if(l>2e5||isNaN(l)){let u={instancePath:s+"/join/"+n+"/0",schemaPath:"#/properties/join/items/items/0/maximum",keyword:"maximum",params:{
comparison:"<=",limit:2e5}};e===null?e=[u]:e.push(u),t++}if(l<-2e5||isNaN(l)){let u={instancePath:s+"/join/"+n+"/0",schemaPath:"#/properties/join/items/items/0/\
minimum",keyword:"minimum",params:{comparison:">=",limit:-2e5}};e===null?e=[u]:e.push(u),t++}}else{let u={instancePath:s+"/join/"+n+"/0",schemaPath:"#/propertie\
s/join/items/items/0/type",keyword:"type",params:{type:"number"}};e===null?e=[u]:e.push(u),t++}}if(p>1){let l=m[1];if(typeof l=="number"&&isFinite(l)){if(l>2e5||
isNaN(l)){let u={instancePath:s+"/join/"+n+"/1",schemaPath:"#/properties/join/items/items/1/maximum",keyword:"maximum",params:{comparison:"<=",limit:2e5}};e===null?
e=[u]:e.push(u),t++}if(l<-2e5||isNaN(l)){let u={instancePath:s+"/join/"+n+"/1",schemaPath:"#/properties/join/items/items/1/minimum",keyword:"minimum",params:{comparison:"\
>=",limit:-2e5}};e===null?e=[u]:e.push(u),t++}}else{let u={instancePath:s+"/join/"+n+"/1",schemaPath:"#/properties/join/items/items/1/type",keyword:"type",params:{
type:"number"}};e===null?e=[u]:e.push(u),t++}}if(p>2){let l=m[2];if(typeof l=="number"&&isFinite(l)){if(l>45||isNaN(l)){let u={instancePath:s+"/join/"+n+"/2",schemaPath:"\
#/properties/join/items/items/2/maximum",keyword:"maximum",params:{comparison:"<=",limit:45}};e===null?e=[u]:e.push(u),t++}if(l<-45||isNaN(l)){let u={instancePath:s+
"/join/"+n+"/2",schemaPath:"#/properties/join/items/items/2/minimum",keyword:"minimum",params:{comparison:">=",limit:-45}};e===null?e=[u]:e.push(u),t++}}else{let u={
instancePath:s+"/join/"+n+"/2",schemaPath:"#/properties/join/items/items/2/type",keyword:"type",params:{type:"number"}};e===null?e=[u]:e.push(u),t++}}if(p>3){let l=m[3];
if(!(typeof l=="number"&&isFinite(l))&&!Array.isArray(l)){let u={instancePath:s+"/join/"+n+"/3",schemaPath:"#/properties/join/items/items/3/type",keyword:"type",
params:{type:Z.properties.join.items.items[3].type}};e===null?e=[u]:e.push(u),t++}if(typeof l=="number"&&isFinite(l)){if(l>4||isNaN(l)){let u={instancePath:s+"/\
join/"+n+"/3",schemaPath:"#/properties/join/items/items/3/maximum",keyword:"maximum",params:{comparison:"<=",limit:4}};e===null?e=[u]:e.push(u),t++}if(l<-4||isNaN(
l)){let u={instancePath:s+"/join/"+n+"/3",schemaPath:"#/properties/join/items/items/3/minimum",keyword:"minimum",params:{comparison:">=",limit:-4}};e===null?e=[
u]:e.push(u),t++}}if(Array.isArray(l)){if(l.length>3){let P={instancePath:s+"/join/"+n+"/3",schemaPath:"#/properties/join/items/items/3/maxItems",keyword:"maxIt\
ems",params:{limit:3}};e===null?e=[P]:e.push(P),t++}if(l.length<3){let P={instancePath:s+"/join/"+n+"/3",schemaPath:"#/properties/join/items/items/3/minItems",keyword:"\
minItems",params:{limit:3}};e===null?e=[P]:e.push(P),t++}let u=l.length;for(let P=0;P<u;P++){let z=l[P];if(typeof z=="number"&&isFinite(z)){if(z>4||isNaN(z)){let b={
instancePath:s+"/join/"+n+"/3/"+P,schemaPath:"#/properties/join/items/items/3/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:4}};e===null?e=[b]:
e.push(b),t++}if(z<-4||isNaN(z)){let b={instancePath:s+"/join/"+n+"/3/"+P,schemaPath:"#/properties/join/items/items/3/items/minimum",keyword:"minimum",params:{comparison:"\
>=",limit:-4}};e===null?e=[b]:e.push(b),t++}}else{let b={instancePath:s+"/join/"+n+"/3/"+P,schemaPath:"#/properties/join/items/items/3/items/type",keyword:"type",
params:{type:"number"}};e===null?e=[b]:e.push(b),t++}}}}}else{let p={instancePath:s+"/join/"+n,schemaPath:"#/properties/join/items/type",keyword:"type",params:{
type:"array"}};e===null?e=[p]:e.push(p),t++}}}else{let r={instancePath:s+"/join",schemaPath:"#/properties/join/type",keyword:"type",params:{type:"array"}};e===null?
e=[r]:e.push(r),t++}}if(a.area!==void 0&&(U(a.area,{instancePath:s+"/area",parentData:a,parentDataProperty:"area",rootData:o})||(e=e===null?U.errors:e.concat(U.
errors),t=e.length)),a.turn!==void 0){let i=a.turn;if(!(i===0||i===90||i===180||i===270)){let r={instancePath:s+"/turn",schemaPath:"#/properties/turn/enum",keyword:"\
enum",params:{allowedValues:Z.properties.turn.enum}};e===null?e=[r]:e.push(r),t++}}if(a.mirror!==void 0&&typeof a.mirror!="boolean"){let i={instancePath:s+"/mir\
ror",schemaPath:"#/properties/mirror/type",keyword:"type",params:{type:"boolean"}};e===null?e=[i]:e.push(i),t++}if(a.skip!==void 0&&typeof a.skip!="boolean"){let i={
instancePath:s+"/skip",schemaPath:"#/properties/skip/type",keyword:"type",params:{type:"boolean"}};e===null?e=[i]:e.push(i),t++}if(a.choice!==void 0){let i=a.choice;
if(!(i==="keep"||i==="reject")){let r={instancePath:s+"/choice",schemaPath:"#/properties/choice/enum",keyword:"enum",params:{allowedValues:Z.properties.choice.enum}};
e===null?e=[r]:e.push(r),t++}}if(a.rank!==void 0){let i=a.rank;if(!(i===1||i===2||i===3||i===4||i===5)){let r={instancePath:s+"/rank",schemaPath:"#/properties/r\
ank/enum",keyword:"enum",params:{allowedValues:Z.properties.rank.enum}};e===null?e=[r]:e.push(r),t++}}if(a.light!==void 0&&(F(a.light,{instancePath:s+"/light",parentData:a,
parentDataProperty:"light",rootData:o})||(e=e===null?F.errors:e.concat(F.errors),t=e.length)),a.negative!==void 0&&(g(a.negative,{instancePath:s+"/negative",parentData:a,
parentDataProperty:"negative",rootData:o})||(e=e===null?g.errors:e.concat(g.errors),t=e.length)),a.positive!==void 0&&(k(a.positive,{instancePath:s+"/positive",
parentData:a,parentDataProperty:"positive",rootData:o})||(e=e===null?k.errors:e.concat(k.errors),t=e.length)),a.spots!==void 0&&(L(a.spots,{instancePath:s+"/spo\
ts",parentData:a,parentDataProperty:"spots",rootData:o})||(e=e===null?L.errors:e.concat(L.errors),t=e.length)),a.title!==void 0){let i=a.title;if(typeof i=="str\
ing"){if(y(i)>200){let r={instancePath:s+"/title",schemaPath:"#/properties/title/maxLength",keyword:"maxLength",params:{limit:200}};e===null?e=[r]:e.push(r),t++}}else{
let r={instancePath:s+"/title",schemaPath:"#/properties/title/type",keyword:"type",params:{type:"string"}};e===null?e=[r]:e.push(r),t++}}a.exposed!==void 0&&(j(
a.exposed,{instancePath:s+"/exposed",parentData:a,parentDataProperty:"exposed",rootData:o})||(e=e===null?j.errors:e.concat(j.errors),t=e.length)),a.iptc!==void 0&&
($(a.iptc,{instancePath:s+"/iptc",parentData:a,parentDataProperty:"iptc",rootData:o})||(e=e===null?$.errors:e.concat($.errors),t=e.length)),a.note!==void 0&&(w(
a.note,{instancePath:s+"/note",parentData:a,parentDataProperty:"note",rootData:o})||(e=e===null?w.errors:e.concat(w.errors),t=e.length))}else{let i={instancePath:s,
schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[i]:e.push(i),t++}return W.errors=e,t===0}var De=new RegExp("^[0-9a-f]{64}$","u");function X(a,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=a}={}){let e=null,t=0;if(a&&typeof a=="obje\
ct"&&!Array.isArray(a)){if(a.size===void 0){let i={instancePath:s,schemaPath:"#/required",keyword:"required",params:{missingProperty:"size"}};e===null?e=[i]:e.push(
i),t++}if(a.sha256===void 0){let i={instancePath:s,schemaPath:"#/required",keyword:"required",params:{missingProperty:"sha256"}};e===null?e=[i]:e.push(i),t++}for(let i in a)
if(!(i==="size"||i==="sha256")){let r={instancePath:s,schemaPath:"#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:i}};e===null?
e=[r]:e.push(r),t++}if(a.size!==void 0){let i=a.size;if(!(typeof i=="number"&&!(i%1)&&!isNaN(i)&&isFinite(i))){let r={instancePath:s+"/size",schemaPath:"#/prope\
rties/size/type",keyword:"type",params:{type:"integer"}};e===null?e=[r]:e.push(r),t++}if(typeof i=="number"&&isFinite(i)){if(i>9007199254740991||isNaN(i)){let r={
instancePath:s+"/size",schemaPath:"#/properties/size/maximum",keyword:"maximum",params:{comparison:"<=",limit:9007199254740991}};e===null?e=[r]:e.push(r),t++}if(i<
0||isNaN(i)){let r={instancePath:s+"/size",schemaPath:"#/properties/size/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[r]:e.push(r),t++}}}
if(a.sha256!==void 0){let i=a.sha256;if(typeof i=="string"){if(!De.test(i)){let r={instancePath:s+"/sha256",schemaPath:"#/properties/sha256/pattern",keyword:"pa\
ttern",params:{pattern:"^[0-9a-f]{64}$"}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/sha256",schemaPath:"#/properties/sha256/type",keyword:"type",
params:{type:"string"}};e===null?e=[r]:e.push(r),t++}}}else{let i={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[i]:e.push(
i),t++}return X.errors=e,t===0}var je={type:"object",additionalProperties:!1,properties:{roll:{type:"object",additionalProperties:!1,properties:{blank:{$ref:"#/\
definitions/digest"},flare:{$ref:"#/definitions/digest"},times:{$ref:"#/definitions/digest"},base:{$ref:"#/definitions/digest"},curve:{$ref:"#/definitions/diges\
t"},filtration:{$ref:"#/definitions/digest"},contrast:{$ref:"#/definitions/digest"},toe:{$ref:"#/definitions/digest"},shoulder:{$ref:"#/definitions/digest"}}},scans:{
type:"object",additionalProperties:{type:"object",additionalProperties:!1,properties:{area:{$ref:"#/definitions/digest"},exposure:{$ref:"#/definitions/digest"},
contrast:{$ref:"#/definitions/digest"}}}}}};var $e=new RegExp("^[b-df-hj-np-tv-z]{8}(-[b-df-hj-np-tv-z]{4})*$","u");function c(a,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=a}={}){let e=null,
t=0;if(typeof a=="string"){if(!$e.test(a)){let i={instancePath:s,schemaPath:"#/pattern",keyword:"pattern",params:{pattern:"^[b-df-hj-np-tv-z]{8}(-[b-df-hj-np-tv\
-z]{4})*$"}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}return c.
errors=e,t===0}function Y(a,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=a}={}){let e=null,t=0;if(a&&typeof a=="object"&&!Array.isArray(a)){for(let i in a)
if(!(i==="roll"||i==="scans")){let r={instancePath:s,schemaPath:"#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:i}};e===null?
e=[r]:e.push(r),t++}if(a.roll!==void 0){let i=a.roll;if(i&&typeof i=="object"&&!Array.isArray(i)){for(let r in i)if(!x.call(je.properties.roll.properties,r)){let n={
instancePath:s+"/roll",schemaPath:"#/properties/roll/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?e=[n]:e.push(n),
t++}i.blank!==void 0&&(c(i.blank,{instancePath:s+"/roll/blank",parentData:i,parentDataProperty:"blank",rootData:o})||(e=e===null?c.errors:e.concat(c.errors),t=e.
length)),i.flare!==void 0&&(c(i.flare,{instancePath:s+"/roll/flare",parentData:i,parentDataProperty:"flare",rootData:o})||(e=e===null?c.errors:e.concat(c.errors),
t=e.length)),i.times!==void 0&&(c(i.times,{instancePath:s+"/roll/times",parentData:i,parentDataProperty:"times",rootData:o})||(e=e===null?c.errors:e.concat(c.errors),
t=e.length)),i.base!==void 0&&(c(i.base,{instancePath:s+"/roll/base",parentData:i,parentDataProperty:"base",rootData:o})||(e=e===null?c.errors:e.concat(c.errors),
t=e.length)),i.curve!==void 0&&(c(i.curve,{instancePath:s+"/roll/curve",parentData:i,parentDataProperty:"curve",rootData:o})||(e=e===null?c.errors:e.concat(c.errors),
t=e.length)),i.filtration!==void 0&&(c(i.filtration,{instancePath:s+"/roll/filtration",parentData:i,parentDataProperty:"filtration",rootData:o})||(e=e===null?c.
errors:e.concat(c.errors),t=e.length)),i.contrast!==void 0&&(c(i.contrast,{instancePath:s+"/roll/contrast",parentData:i,parentDataProperty:"contrast",rootData:o})||
(e=e===null?c.errors:e.concat(c.errors),t=e.length)),i.toe!==void 0&&(c(i.toe,{instancePath:s+"/roll/toe",parentData:i,parentDataProperty:"toe",rootData:o})||(e=
e===null?c.errors:e.concat(c.errors),t=e.length)),i.shoulder!==void 0&&(c(i.shoulder,{instancePath:s+"/roll/shoulder",parentData:i,parentDataProperty:"shoulder",
rootData:o})||(e=e===null?c.errors:e.concat(c.errors),t=e.length))}else{let r={instancePath:s+"/roll",schemaPath:"#/properties/roll/type",keyword:"type",params:{
type:"object"}};e===null?e=[r]:e.push(r),t++}}if(a.scans!==void 0){let i=a.scans;if(i&&typeof i=="object"&&!Array.isArray(i))for(let r in i){let n=i[r];if(n&&typeof n==
"object"&&!Array.isArray(n)){for(let m in n)if(!(m==="area"||m==="exposure"||m==="contrast")){let p={instancePath:s+"/scans/"+r.replace(/~/g,"~0").replace(/\//g,
"~1"),schemaPath:"#/properties/scans/additionalProperties/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:m}};e===null?e=[p]:e.push(
p),t++}n.area!==void 0&&(c(n.area,{instancePath:s+"/scans/"+r.replace(/~/g,"~0").replace(/\//g,"~1")+"/area",parentData:n,parentDataProperty:"area",rootData:o})||
(e=e===null?c.errors:e.concat(c.errors),t=e.length)),n.exposure!==void 0&&(c(n.exposure,{instancePath:s+"/scans/"+r.replace(/~/g,"~0").replace(/\//g,"~1")+"/exp\
osure",parentData:n,parentDataProperty:"exposure",rootData:o})||(e=e===null?c.errors:e.concat(c.errors),t=e.length)),n.contrast!==void 0&&(c(n.contrast,{instancePath:s+
"/scans/"+r.replace(/~/g,"~0").replace(/\//g,"~1")+"/contrast",parentData:n,parentDataProperty:"contrast",rootData:o})||(e=e===null?c.errors:e.concat(c.errors),
t=e.length))}else{let m={instancePath:s+"/scans/"+r.replace(/~/g,"~0").replace(/\//g,"~1"),schemaPath:"#/properties/scans/additionalProperties/type",keyword:"ty\
pe",params:{type:"object"}};e===null?e=[m]:e.push(m),t++}}else{let r={instancePath:s+"/scans",schemaPath:"#/properties/scans/type",keyword:"type",params:{type:"\
object"}};e===null?e=[r]:e.push(r),t++}}}else{let i={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[i]:e.push(i),t++}return Y.
errors=e,t===0}var ae=new RegExp("^[0-9]{1,3}[A-Z]?$","u");function me(a,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=a}={}){let e=null,t=0;if(a&&
typeof a=="object"&&!Array.isArray(a)){if(a.version===void 0){let i={instancePath:s,schemaPath:"#/required",keyword:"required",params:{missingProperty:"version"}};
e===null?e=[i]:e.push(i),t++}for(let i in a)if(!x.call(le.properties,i)){let r={instancePath:s,schemaPath:"#/additionalProperties",keyword:"additionalProperties",
params:{additionalProperty:i}};e===null?e=[r]:e.push(r),t++}if(a.version!==void 0&&(I(a.version,{instancePath:s+"/version",parentData:a,parentDataProperty:"vers\
ion",rootData:o})||(e=e===null?I.errors:e.concat(I.errors),t=e.length)),a.title!==void 0){let i=a.title;if(typeof i=="string"){if(y(i)>200){let r={instancePath:s+
"/title",schemaPath:"#/properties/title/maxLength",keyword:"maxLength",params:{limit:200}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/title",schemaPath:"\
#/properties/title/type",keyword:"type",params:{type:"string"}};e===null?e=[r]:e.push(r),t++}}if(a.stock!==void 0){let i=a.stock;if(typeof i=="string"){if(y(i)<
1){let r={instancePath:s+"/stock",schemaPath:"#/properties/stock/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+
"/stock",schemaPath:"#/properties/stock/type",keyword:"type",params:{type:"string"}};e===null?e=[r]:e.push(r),t++}}if(a.film!==void 0&&(A(a.film,{instancePath:s+
"/film",parentData:a,parentDataProperty:"film",rootData:o})||(e=e===null?A.errors:e.concat(A.errors),t=e.length)),a.format!==void 0&&(D(a.format,{instancePath:s+
"/format",parentData:a,parentDataProperty:"format",rootData:o})||(e=e===null?D.errors:e.concat(D.errors),t=e.length)),a.exposed!==void 0&&(j(a.exposed,{instancePath:s+
"/exposed",parentData:a,parentDataProperty:"exposed",rootData:o})||(e=e===null?j.errors:e.concat(j.errors),t=e.length)),a.iptc!==void 0&&($(a.iptc,{instancePath:s+
"/iptc",parentData:a,parentDataProperty:"iptc",rootData:o})||(e=e===null?$.errors:e.concat($.errors),t=e.length)),a.scans!==void 0){let i=a.scans;if(typeof i=="\
string"){if(y(i)<1){let r={instancePath:s+"/scans",schemaPath:"#/properties/scans/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[r]:e.push(r),t++}}else{
let r={instancePath:s+"/scans",schemaPath:"#/properties/scans/type",keyword:"type",params:{type:"string"}};e===null?e=[r]:e.push(r),t++}}if(a.light!==void 0&&(F(
a.light,{instancePath:s+"/light",parentData:a,parentDataProperty:"light",rootData:o})||(e=e===null?F.errors:e.concat(F.errors),t=e.length)),a.negative!==void 0&&
(g(a.negative,{instancePath:s+"/negative",parentData:a,parentDataProperty:"negative",rootData:o})||(e=e===null?g.errors:e.concat(g.errors),t=e.length)),a.positive!==
void 0&&(k(a.positive,{instancePath:s+"/positive",parentData:a,parentDataProperty:"positive",rootData:o})||(e=e===null?k.errors:e.concat(k.errors),t=e.length)),
a.output!==void 0&&(E(a.output,{instancePath:s+"/output",parentData:a,parentDataProperty:"output",rootData:o})||(e=e===null?E.errors:e.concat(E.errors),t=e.length)),
a.frames!==void 0){let i=a.frames;if(i&&typeof i=="object"&&!Array.isArray(i)){for(let r in i)if(!ae.test(r)){let n={instancePath:s+"/frames",schemaPath:"#/prop\
erties/frames/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?e=[n]:e.push(n),t++}for(let r in i)ae.test(r)&&(W(i[r],
{instancePath:s+"/frames/"+r.replace(/~/g,"~0").replace(/\//g,"~1"),parentData:i,parentDataProperty:r,rootData:o})||(e=e===null?W.errors:e.concat(W.errors),t=e.
length))}else{let r={instancePath:s+"/frames",schemaPath:"#/properties/frames/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}}if(a.note!==
void 0&&(w(a.note,{instancePath:s+"/note",parentData:a,parentDataProperty:"note",rootData:o})||(e=e===null?w.errors:e.concat(w.errors),t=e.length)),a.fingerprints!==
void 0){let i=a.fingerprints;if(i&&typeof i=="object"&&!Array.isArray(i))for(let r in i)X(i[r],{instancePath:s+"/fingerprints/"+r.replace(/~/g,"~0").replace(/\//g,
"~1"),parentData:i,parentDataProperty:r,rootData:o})||(e=e===null?X.errors:e.concat(X.errors),t=e.length);else{let r={instancePath:s+"/fingerprints",schemaPath:"\
#/properties/fingerprints/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}}a.automatic!==void 0&&(Y(a.automatic,{instancePath:s+"/auto\
matic",parentData:a,parentDataProperty:"automatic",rootData:o})||(e=e===null?Y.errors:e.concat(Y.errors),t=e.length))}else{let i={instancePath:s,schemaPath:"#/t\
ype",keyword:"type",params:{type:"object"}};e===null?e=[i]:e.push(i),t++}return me.errors=e,t===0}var ze=pe,Le={type:"object",additionalProperties:!1,required:[
"version"],properties:{version:{$ref:"#/definitions/version"},title:{type:"string",maxLength:200},film:{$ref:"#/definitions/film"},iso:{type:"number",minimum:.1,
maximum:1e5},format:{$ref:"#/definitions/format"},process:{type:"string"},negative:{$ref:"#/definitions/negative"},positive:{$ref:"#/definitions/positive"},output:{
$ref:"#/definitions/outputs"},note:{$ref:"#/definitions/note"}}};function pe(a,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=a}={}){let e=null,
t=0;if(a&&typeof a=="object"&&!Array.isArray(a)){if(a.version===void 0){let i={instancePath:s,schemaPath:"#/required",keyword:"required",params:{missingProperty:"\
version"}};e===null?e=[i]:e.push(i),t++}for(let i in a)if(!x.call(Le.properties,i)){let r={instancePath:s,schemaPath:"#/additionalProperties",keyword:"additiona\
lProperties",params:{additionalProperty:i}};e===null?e=[r]:e.push(r),t++}if(a.version!==void 0&&(I(a.version,{instancePath:s+"/version",parentData:a,parentDataProperty:"\
version",rootData:o})||(e=e===null?I.errors:e.concat(I.errors),t=e.length)),a.title!==void 0){let i=a.title;if(typeof i=="string"){if(y(i)>200){let r={instancePath:s+
"/title",schemaPath:"#/properties/title/maxLength",keyword:"maxLength",params:{limit:200}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s+"/title",schemaPath:"\
#/properties/title/type",keyword:"type",params:{type:"string"}};e===null?e=[r]:e.push(r),t++}}if(a.film!==void 0&&(A(a.film,{instancePath:s+"/film",parentData:a,
parentDataProperty:"film",rootData:o})||(e=e===null?A.errors:e.concat(A.errors),t=e.length)),a.iso!==void 0){let i=a.iso;if(typeof i=="number"&&isFinite(i)){if(i>
1e5||isNaN(i)){let r={instancePath:s+"/iso",schemaPath:"#/properties/iso/maximum",keyword:"maximum",params:{comparison:"<=",limit:1e5}};e===null?e=[r]:e.push(r),
t++}if(i<.1||isNaN(i)){let r={instancePath:s+"/iso",schemaPath:"#/properties/iso/minimum",keyword:"minimum",params:{comparison:">=",limit:.1}};e===null?e=[r]:e.
push(r),t++}}else{let r={instancePath:s+"/iso",schemaPath:"#/properties/iso/type",keyword:"type",params:{type:"number"}};e===null?e=[r]:e.push(r),t++}}if(a.format!==
void 0&&(D(a.format,{instancePath:s+"/format",parentData:a,parentDataProperty:"format",rootData:o})||(e=e===null?D.errors:e.concat(D.errors),t=e.length)),a.process!==
void 0&&typeof a.process!="string"){let i={instancePath:s+"/process",schemaPath:"#/properties/process/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:
e.push(i),t++}a.negative!==void 0&&(g(a.negative,{instancePath:s+"/negative",parentData:a,parentDataProperty:"negative",rootData:o})||(e=e===null?g.errors:e.concat(
g.errors),t=e.length)),a.positive!==void 0&&(k(a.positive,{instancePath:s+"/positive",parentData:a,parentDataProperty:"positive",rootData:o})||(e=e===null?k.errors:
e.concat(k.errors),t=e.length)),a.output!==void 0&&(E(a.output,{instancePath:s+"/output",parentData:a,parentDataProperty:"output",rootData:o})||(e=e===null?E.errors:
e.concat(E.errors),t=e.length)),a.note!==void 0&&(w(a.note,{instancePath:s+"/note",parentData:a,parentDataProperty:"note",rootData:o})||(e=e===null?w.errors:e.concat(
w.errors),t=e.length))}else{let i={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[i]:e.push(i),t++}return pe.errors=e,t===
0}export{Ee as roll,ze as stock};
