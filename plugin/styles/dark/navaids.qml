<!DOCTYPE qgis PUBLIC 'http://mrcc.com/qgis.dtd' 'SYSTEM'>
<qgis labelsEnabled="1" version="3.22.16-Białowieża" styleCategories="Symbology|Labeling">
  <renderer-v2 type="categorizedSymbol" referencescale="-1" enableorderby="0" attr="kind" forceraster="0" symbollevels="0">
    <categories>
      <category symbol="0" value="VOR" render="true" label="VOR"/>
      <category symbol="1" value="VOR/DME" render="true" label="VOR/DME"/>
      <category symbol="2" value="VORTAC" render="true" label="VORTAC"/>
      <category symbol="3" value="TACAN" render="true" label="TACAN"/>
      <category symbol="4" value="DME" render="true" label="DME"/>
      <category symbol="5" value="NDB" render="true" label="NDB"/>
      <category symbol="6" value="NDB/DME" render="true" label="NDB/DME"/>
      <category symbol="7" value="WPT" render="true" label="WPT"/>
      <category symbol="8" value="" render="true" label="other"/>
    </categories>
    <symbols>
      <symbol type="marker" force_rhr="0" clip_to_extent="1" alpha="1" name="0">
        <data_defined_properties>
          <Option type="Map">
            <Option type="QString" name="name" value=""/>
            <Option name="properties"/>
            <Option type="QString" name="type" value="collection"/>
          </Option>
        </data_defined_properties>
        <layer class="SvgMarker" enabled="1" locked="0" pass="0">
          <Option type="Map">
            <Option type="QString" name="angle" value="0"/>
            <Option type="QString" name="color" value="30,30,30,255"/>
            <Option type="QString" name="fixedAspectRatio" value="0"/>
            <Option type="QString" name="horizontal_anchor_point" value="1"/>
            <Option type="QString" name="name" value="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoOiB0aWNrcyBlYWNoIDEwIGRlZ3JlZXMsIGZpZ3VyZXMgZWFjaCAzMDwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgogIDxnIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIGZvbnQtZmFtaWx5PSJEZWphVnUgU2Fucywgc2Fucy1zZXJpZiIgZm9udC1zaXplPSI2IiB0ZXh0LWFuY2hvcj0ibWlkZGxlIj4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMCA1MCA1MCkiPjM8L3RleHQ+CiAgICA8dGV4dCB4PSI1MCIgeT0iMTEuNiIgdHJhbnNmb3JtPSJyb3RhdGUoNjAgNTAgNTApIj42PC90ZXh0PgogICAgPHRleHQgeD0iNTAiIHk9IjExLjYiIHRyYW5zZm9ybT0icm90YXRlKDkwIDUwIDUwKSI+OTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxMjAgNTAgNTApIj4xMjwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxNTAgNTAgNTApIj4xNTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxODAgNTAgNTApIj4xODwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyMTAgNTAgNTApIj4yMTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNDAgNTAgNTApIj4yNDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNzAgNTAgNTApIj4yNzwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMDAgNTAgNTApIj4zMDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMzAgNTAgNTApIj4zMzwvdGV4dD4KICA8L2c+Cjwvc3ZnPgo="/>
            <Option type="QString" name="offset" value="0,0"/>
            <Option type="QString" name="offset_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="offset_unit" value="MM"/>
            <Option type="QString" name="outline_color" value="180,180,180,255"/>
            <Option type="QString" name="outline_width" value="0.12"/>
            <Option type="QString" name="outline_width_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="outline_width_unit" value="MM"/>
            <Option name="parameters"/>
            <Option type="QString" name="scale_method" value="diameter"/>
            <Option type="QString" name="size" value="0"/>
            <Option type="QString" name="size_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="size_unit" value="MM"/>
            <Option type="QString" name="vertical_anchor_point" value="1"/>
          </Option>
          <prop k="angle" v="0"/>
          <prop k="color" v="30,30,30,255"/>
          <prop k="fixedAspectRatio" v="0"/>
          <prop k="horizontal_anchor_point" v="1"/>
          <prop k="name" v="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoOiB0aWNrcyBlYWNoIDEwIGRlZ3JlZXMsIGZpZ3VyZXMgZWFjaCAzMDwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgogIDxnIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIGZvbnQtZmFtaWx5PSJEZWphVnUgU2Fucywgc2Fucy1zZXJpZiIgZm9udC1zaXplPSI2IiB0ZXh0LWFuY2hvcj0ibWlkZGxlIj4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMCA1MCA1MCkiPjM8L3RleHQ+CiAgICA8dGV4dCB4PSI1MCIgeT0iMTEuNiIgdHJhbnNmb3JtPSJyb3RhdGUoNjAgNTAgNTApIj42PC90ZXh0PgogICAgPHRleHQgeD0iNTAiIHk9IjExLjYiIHRyYW5zZm9ybT0icm90YXRlKDkwIDUwIDUwKSI+OTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxMjAgNTAgNTApIj4xMjwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxNTAgNTAgNTApIj4xNTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxODAgNTAgNTApIj4xODwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyMTAgNTAgNTApIj4yMTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNDAgNTAgNTApIj4yNDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNzAgNTAgNTApIj4yNzwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMDAgNTAgNTApIj4zMDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMzAgNTAgNTApIj4zMzwvdGV4dD4KICA8L2c+Cjwvc3ZnPgo="/>
          <prop k="offset" v="0,0"/>
          <prop k="offset_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="offset_unit" v="MM"/>
          <prop k="outline_color" v="180,180,180,255"/>
          <prop k="outline_width" v="0.12"/>
          <prop k="outline_width_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="outline_width_unit" v="MM"/>
          <prop k="parameters" v=""/>
          <prop k="scale_method" v="diameter"/>
          <prop k="size" v="0"/>
          <prop k="size_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="size_unit" v="MM"/>
          <prop k="vertical_anchor_point" v="1"/>
          <data_defined_properties>
            <Option type="Map">
              <Option type="QString" name="name" value=""/>
              <Option type="Map" name="properties">
                <Option type="Map" name="angle">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="field" value="decl_deg"/>
                  <Option type="int" name="type" value="2"/>
                </Option>
                <Option type="Map" name="name">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="expression" value="if((@rose_mm IS NOT NULL OR @map_scale &lt;= 300000), 'base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoOiB0aWNrcyBlYWNoIDEwIGRlZ3JlZXMsIGZpZ3VyZXMgZWFjaCAzMDwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgogIDxnIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIGZvbnQtZmFtaWx5PSJEZWphVnUgU2Fucywgc2Fucy1zZXJpZiIgZm9udC1zaXplPSI2IiB0ZXh0LWFuY2hvcj0ibWlkZGxlIj4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMCA1MCA1MCkiPjM8L3RleHQ+CiAgICA8dGV4dCB4PSI1MCIgeT0iMTEuNiIgdHJhbnNmb3JtPSJyb3RhdGUoNjAgNTAgNTApIj42PC90ZXh0PgogICAgPHRleHQgeD0iNTAiIHk9IjExLjYiIHRyYW5zZm9ybT0icm90YXRlKDkwIDUwIDUwKSI+OTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxMjAgNTAgNTApIj4xMjwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxNTAgNTAgNTApIj4xNTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxODAgNTAgNTApIj4xODwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyMTAgNTAgNTApIj4yMTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNDAgNTAgNTApIj4yNDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNzAgNTAgNTApIj4yNzwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMDAgNTAgNTApIj4zMDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMzAgNTAgNTApIj4zMzwvdGV4dD4KICA8L2c+Cjwvc3ZnPgo=', 'base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoLCB0b28gc21hbGwgZm9yIGZpZ3VyZXM6IHRpY2tzIGVhY2ggMTAgZGVncmVlczwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgo8L3N2Zz4K')"/>
                  <Option type="int" name="type" value="3"/>
                </Option>
                <Option type="Map" name="size">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="expression" value="if(&quot;kind&quot; IN ('VOR', 'VOR/DME', 'VORTAC', 'TACAN') AND &quot;decl_deg&quot; IS NOT NULL, coalesce(@rose_mm, if((@rose_mm IS NOT NULL OR @map_scale &lt;= 300000), 30, 16)), 0)"/>
                  <Option type="int" name="type" value="3"/>
                </Option>
              </Option>
              <Option type="QString" name="type" value="collection"/>
            </Option>
          </data_defined_properties>
        </layer>
        <layer class="SvgMarker" enabled="1" locked="0" pass="0">
          <Option type="Map">
            <Option type="QString" name="angle" value="0"/>
            <Option type="QString" name="color" value="30,30,30,255"/>
            <Option type="QString" name="fixedAspectRatio" value="0"/>
            <Option type="QString" name="horizontal_anchor_point" value="1"/>
            <Option type="QString" name="name" value="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIyNCIgaGVpZ2h0PSIyNCIgdmlld0JveD0iMCAwIDI0IDI0Ij4KICA8dGl0bGU+Vk9SPC90aXRsZT4KICA8cG9seWdvbiBwb2ludHM9IjIyLDEyIDE3LDIwLjY2IDcsMjAuNjYgMiwxMiA3LDMuMzQgMTcsMy4zNCIgZmlsbD0icGFyYW0oZmlsbCkgI2ZmZmZmZiIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDEuNCIgc3Ryb2tlLWxpbmVqb2luPSJtaXRlciIvPgogIDxjaXJjbGUgY3g9IjEyIiBjeT0iMTIiIHI9IjEuNiIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgo8L3N2Zz4K"/>
            <Option type="QString" name="offset" value="0,0"/>
            <Option type="QString" name="offset_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="offset_unit" value="MM"/>
            <Option type="QString" name="outline_color" value="242,242,242,255"/>
            <Option type="QString" name="outline_width" value="0.3"/>
            <Option type="QString" name="outline_width_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="outline_width_unit" value="MM"/>
            <Option name="parameters"/>
            <Option type="QString" name="scale_method" value="diameter"/>
            <Option type="QString" name="size" value="4.6"/>
            <Option type="QString" name="size_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="size_unit" value="MM"/>
            <Option type="QString" name="vertical_anchor_point" value="1"/>
          </Option>
          <prop k="angle" v="0"/>
          <prop k="color" v="30,30,30,255"/>
          <prop k="fixedAspectRatio" v="0"/>
          <prop k="horizontal_anchor_point" v="1"/>
          <prop k="name" v="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIyNCIgaGVpZ2h0PSIyNCIgdmlld0JveD0iMCAwIDI0IDI0Ij4KICA8dGl0bGU+Vk9SPC90aXRsZT4KICA8cG9seWdvbiBwb2ludHM9IjIyLDEyIDE3LDIwLjY2IDcsMjAuNjYgMiwxMiA3LDMuMzQgMTcsMy4zNCIgZmlsbD0icGFyYW0oZmlsbCkgI2ZmZmZmZiIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDEuNCIgc3Ryb2tlLWxpbmVqb2luPSJtaXRlciIvPgogIDxjaXJjbGUgY3g9IjEyIiBjeT0iMTIiIHI9IjEuNiIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgo8L3N2Zz4K"/>
          <prop k="offset" v="0,0"/>
          <prop k="offset_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="offset_unit" v="MM"/>
          <prop k="outline_color" v="242,242,242,255"/>
          <prop k="outline_width" v="0.3"/>
          <prop k="outline_width_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="outline_width_unit" v="MM"/>
          <prop k="parameters" v=""/>
          <prop k="scale_method" v="diameter"/>
          <prop k="size" v="4.6"/>
          <prop k="size_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="size_unit" v="MM"/>
          <prop k="vertical_anchor_point" v="1"/>
          <data_defined_properties>
            <Option type="Map">
              <Option type="QString" name="name" value=""/>
              <Option name="properties"/>
              <Option type="QString" name="type" value="collection"/>
            </Option>
          </data_defined_properties>
        </layer>
        <layer class="SimpleMarker" enabled="1" locked="0" pass="0">
          <Option type="Map">
            <Option type="QString" name="angle" value="0"/>
            <Option type="QString" name="cap_style" value="square"/>
            <Option type="QString" name="color" value="242,242,242,255"/>
            <Option type="QString" name="horizontal_anchor_point" value="1"/>
            <Option type="QString" name="joinstyle" value="bevel"/>
            <Option type="QString" name="name" value="cross2"/>
            <Option type="QString" name="offset" value="0,0"/>
            <Option type="QString" name="offset_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="offset_unit" value="MM"/>
            <Option type="QString" name="outline_color" value="242,242,242,255"/>
            <Option type="QString" name="outline_style" value="solid"/>
            <Option type="QString" name="outline_width" value="0.5"/>
            <Option type="QString" name="outline_width_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="outline_width_unit" value="MM"/>
            <Option type="QString" name="scale_method" value="diameter"/>
            <Option type="QString" name="size" value="0"/>
            <Option type="QString" name="size_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="size_unit" value="MM"/>
            <Option type="QString" name="vertical_anchor_point" value="1"/>
          </Option>
          <prop k="angle" v="0"/>
          <prop k="cap_style" v="square"/>
          <prop k="color" v="242,242,242,255"/>
          <prop k="horizontal_anchor_point" v="1"/>
          <prop k="joinstyle" v="bevel"/>
          <prop k="name" v="cross2"/>
          <prop k="offset" v="0,0"/>
          <prop k="offset_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="offset_unit" v="MM"/>
          <prop k="outline_color" v="242,242,242,255"/>
          <prop k="outline_style" v="solid"/>
          <prop k="outline_width" v="0.5"/>
          <prop k="outline_width_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="outline_width_unit" v="MM"/>
          <prop k="scale_method" v="diameter"/>
          <prop k="size" v="0"/>
          <prop k="size_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="size_unit" v="MM"/>
          <prop k="vertical_anchor_point" v="1"/>
          <data_defined_properties>
            <Option type="Map">
              <Option type="QString" name="name" value=""/>
              <Option type="Map" name="properties">
                <Option type="Map" name="size">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="expression" value="if(lower(coalesce(&quot;status&quot;, '')) IN ('out of service', 'u/s', 'unserviceable', 'decommissioned', 'shutdown'), 6, 0)"/>
                  <Option type="int" name="type" value="3"/>
                </Option>
              </Option>
              <Option type="QString" name="type" value="collection"/>
            </Option>
          </data_defined_properties>
        </layer>
      </symbol>
      <symbol type="marker" force_rhr="0" clip_to_extent="1" alpha="1" name="1">
        <data_defined_properties>
          <Option type="Map">
            <Option type="QString" name="name" value=""/>
            <Option name="properties"/>
            <Option type="QString" name="type" value="collection"/>
          </Option>
        </data_defined_properties>
        <layer class="SvgMarker" enabled="1" locked="0" pass="0">
          <Option type="Map">
            <Option type="QString" name="angle" value="0"/>
            <Option type="QString" name="color" value="30,30,30,255"/>
            <Option type="QString" name="fixedAspectRatio" value="0"/>
            <Option type="QString" name="horizontal_anchor_point" value="1"/>
            <Option type="QString" name="name" value="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoOiB0aWNrcyBlYWNoIDEwIGRlZ3JlZXMsIGZpZ3VyZXMgZWFjaCAzMDwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgogIDxnIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIGZvbnQtZmFtaWx5PSJEZWphVnUgU2Fucywgc2Fucy1zZXJpZiIgZm9udC1zaXplPSI2IiB0ZXh0LWFuY2hvcj0ibWlkZGxlIj4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMCA1MCA1MCkiPjM8L3RleHQ+CiAgICA8dGV4dCB4PSI1MCIgeT0iMTEuNiIgdHJhbnNmb3JtPSJyb3RhdGUoNjAgNTAgNTApIj42PC90ZXh0PgogICAgPHRleHQgeD0iNTAiIHk9IjExLjYiIHRyYW5zZm9ybT0icm90YXRlKDkwIDUwIDUwKSI+OTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxMjAgNTAgNTApIj4xMjwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxNTAgNTAgNTApIj4xNTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxODAgNTAgNTApIj4xODwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyMTAgNTAgNTApIj4yMTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNDAgNTAgNTApIj4yNDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNzAgNTAgNTApIj4yNzwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMDAgNTAgNTApIj4zMDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMzAgNTAgNTApIj4zMzwvdGV4dD4KICA8L2c+Cjwvc3ZnPgo="/>
            <Option type="QString" name="offset" value="0,0"/>
            <Option type="QString" name="offset_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="offset_unit" value="MM"/>
            <Option type="QString" name="outline_color" value="180,180,180,255"/>
            <Option type="QString" name="outline_width" value="0.12"/>
            <Option type="QString" name="outline_width_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="outline_width_unit" value="MM"/>
            <Option name="parameters"/>
            <Option type="QString" name="scale_method" value="diameter"/>
            <Option type="QString" name="size" value="0"/>
            <Option type="QString" name="size_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="size_unit" value="MM"/>
            <Option type="QString" name="vertical_anchor_point" value="1"/>
          </Option>
          <prop k="angle" v="0"/>
          <prop k="color" v="30,30,30,255"/>
          <prop k="fixedAspectRatio" v="0"/>
          <prop k="horizontal_anchor_point" v="1"/>
          <prop k="name" v="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoOiB0aWNrcyBlYWNoIDEwIGRlZ3JlZXMsIGZpZ3VyZXMgZWFjaCAzMDwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgogIDxnIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIGZvbnQtZmFtaWx5PSJEZWphVnUgU2Fucywgc2Fucy1zZXJpZiIgZm9udC1zaXplPSI2IiB0ZXh0LWFuY2hvcj0ibWlkZGxlIj4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMCA1MCA1MCkiPjM8L3RleHQ+CiAgICA8dGV4dCB4PSI1MCIgeT0iMTEuNiIgdHJhbnNmb3JtPSJyb3RhdGUoNjAgNTAgNTApIj42PC90ZXh0PgogICAgPHRleHQgeD0iNTAiIHk9IjExLjYiIHRyYW5zZm9ybT0icm90YXRlKDkwIDUwIDUwKSI+OTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxMjAgNTAgNTApIj4xMjwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxNTAgNTAgNTApIj4xNTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxODAgNTAgNTApIj4xODwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyMTAgNTAgNTApIj4yMTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNDAgNTAgNTApIj4yNDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNzAgNTAgNTApIj4yNzwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMDAgNTAgNTApIj4zMDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMzAgNTAgNTApIj4zMzwvdGV4dD4KICA8L2c+Cjwvc3ZnPgo="/>
          <prop k="offset" v="0,0"/>
          <prop k="offset_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="offset_unit" v="MM"/>
          <prop k="outline_color" v="180,180,180,255"/>
          <prop k="outline_width" v="0.12"/>
          <prop k="outline_width_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="outline_width_unit" v="MM"/>
          <prop k="parameters" v=""/>
          <prop k="scale_method" v="diameter"/>
          <prop k="size" v="0"/>
          <prop k="size_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="size_unit" v="MM"/>
          <prop k="vertical_anchor_point" v="1"/>
          <data_defined_properties>
            <Option type="Map">
              <Option type="QString" name="name" value=""/>
              <Option type="Map" name="properties">
                <Option type="Map" name="angle">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="field" value="decl_deg"/>
                  <Option type="int" name="type" value="2"/>
                </Option>
                <Option type="Map" name="name">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="expression" value="if((@rose_mm IS NOT NULL OR @map_scale &lt;= 300000), 'base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoOiB0aWNrcyBlYWNoIDEwIGRlZ3JlZXMsIGZpZ3VyZXMgZWFjaCAzMDwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgogIDxnIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIGZvbnQtZmFtaWx5PSJEZWphVnUgU2Fucywgc2Fucy1zZXJpZiIgZm9udC1zaXplPSI2IiB0ZXh0LWFuY2hvcj0ibWlkZGxlIj4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMCA1MCA1MCkiPjM8L3RleHQ+CiAgICA8dGV4dCB4PSI1MCIgeT0iMTEuNiIgdHJhbnNmb3JtPSJyb3RhdGUoNjAgNTAgNTApIj42PC90ZXh0PgogICAgPHRleHQgeD0iNTAiIHk9IjExLjYiIHRyYW5zZm9ybT0icm90YXRlKDkwIDUwIDUwKSI+OTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxMjAgNTAgNTApIj4xMjwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxNTAgNTAgNTApIj4xNTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxODAgNTAgNTApIj4xODwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyMTAgNTAgNTApIj4yMTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNDAgNTAgNTApIj4yNDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNzAgNTAgNTApIj4yNzwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMDAgNTAgNTApIj4zMDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMzAgNTAgNTApIj4zMzwvdGV4dD4KICA8L2c+Cjwvc3ZnPgo=', 'base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoLCB0b28gc21hbGwgZm9yIGZpZ3VyZXM6IHRpY2tzIGVhY2ggMTAgZGVncmVlczwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgo8L3N2Zz4K')"/>
                  <Option type="int" name="type" value="3"/>
                </Option>
                <Option type="Map" name="size">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="expression" value="if(&quot;kind&quot; IN ('VOR', 'VOR/DME', 'VORTAC', 'TACAN') AND &quot;decl_deg&quot; IS NOT NULL, coalesce(@rose_mm, if((@rose_mm IS NOT NULL OR @map_scale &lt;= 300000), 30, 16)), 0)"/>
                  <Option type="int" name="type" value="3"/>
                </Option>
              </Option>
              <Option type="QString" name="type" value="collection"/>
            </Option>
          </data_defined_properties>
        </layer>
        <layer class="SvgMarker" enabled="1" locked="0" pass="0">
          <Option type="Map">
            <Option type="QString" name="angle" value="0"/>
            <Option type="QString" name="color" value="30,30,30,255"/>
            <Option type="QString" name="fixedAspectRatio" value="0"/>
            <Option type="QString" name="horizontal_anchor_point" value="1"/>
            <Option type="QString" name="name" value="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIyNCIgaGVpZ2h0PSIyNCIgdmlld0JveD0iMCAwIDI0IDI0Ij4KICA8dGl0bGU+Vk9SL0RNRTwvdGl0bGU+CiAgPHJlY3QgeD0iMiIgeT0iMiIgd2lkdGg9IjIwIiBoZWlnaHQ9IjIwIiBmaWxsPSJwYXJhbShmaWxsKSAjZmZmZmZmIiBzdHJva2U9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIHN0cm9rZS13aWR0aD0icGFyYW0ob3V0bGluZS13aWR0aCkgMS40Ii8+CiAgPHBvbHlnb24gcG9pbnRzPSIyMC42MCwxMiAxNi4zMCwxOS40NSA3LjcwLDE5LjQ1IDMuNDAsMTIgNy43MCw0LjU1IDE2LjMwLDQuNTUiIGZpbGw9Im5vbmUiIHN0cm9rZT0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIgc3Ryb2tlLXdpZHRoPSJwYXJhbShvdXRsaW5lLXdpZHRoKSAxLjQiLz4KICA8Y2lyY2xlIGN4PSIxMiIgY3k9IjEyIiByPSIxLjYiIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiLz4KPC9zdmc+Cg=="/>
            <Option type="QString" name="offset" value="0,0"/>
            <Option type="QString" name="offset_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="offset_unit" value="MM"/>
            <Option type="QString" name="outline_color" value="242,242,242,255"/>
            <Option type="QString" name="outline_width" value="0.3"/>
            <Option type="QString" name="outline_width_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="outline_width_unit" value="MM"/>
            <Option name="parameters"/>
            <Option type="QString" name="scale_method" value="diameter"/>
            <Option type="QString" name="size" value="4.6"/>
            <Option type="QString" name="size_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="size_unit" value="MM"/>
            <Option type="QString" name="vertical_anchor_point" value="1"/>
          </Option>
          <prop k="angle" v="0"/>
          <prop k="color" v="30,30,30,255"/>
          <prop k="fixedAspectRatio" v="0"/>
          <prop k="horizontal_anchor_point" v="1"/>
          <prop k="name" v="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIyNCIgaGVpZ2h0PSIyNCIgdmlld0JveD0iMCAwIDI0IDI0Ij4KICA8dGl0bGU+Vk9SL0RNRTwvdGl0bGU+CiAgPHJlY3QgeD0iMiIgeT0iMiIgd2lkdGg9IjIwIiBoZWlnaHQ9IjIwIiBmaWxsPSJwYXJhbShmaWxsKSAjZmZmZmZmIiBzdHJva2U9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIHN0cm9rZS13aWR0aD0icGFyYW0ob3V0bGluZS13aWR0aCkgMS40Ii8+CiAgPHBvbHlnb24gcG9pbnRzPSIyMC42MCwxMiAxNi4zMCwxOS40NSA3LjcwLDE5LjQ1IDMuNDAsMTIgNy43MCw0LjU1IDE2LjMwLDQuNTUiIGZpbGw9Im5vbmUiIHN0cm9rZT0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIgc3Ryb2tlLXdpZHRoPSJwYXJhbShvdXRsaW5lLXdpZHRoKSAxLjQiLz4KICA8Y2lyY2xlIGN4PSIxMiIgY3k9IjEyIiByPSIxLjYiIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiLz4KPC9zdmc+Cg=="/>
          <prop k="offset" v="0,0"/>
          <prop k="offset_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="offset_unit" v="MM"/>
          <prop k="outline_color" v="242,242,242,255"/>
          <prop k="outline_width" v="0.3"/>
          <prop k="outline_width_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="outline_width_unit" v="MM"/>
          <prop k="parameters" v=""/>
          <prop k="scale_method" v="diameter"/>
          <prop k="size" v="4.6"/>
          <prop k="size_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="size_unit" v="MM"/>
          <prop k="vertical_anchor_point" v="1"/>
          <data_defined_properties>
            <Option type="Map">
              <Option type="QString" name="name" value=""/>
              <Option name="properties"/>
              <Option type="QString" name="type" value="collection"/>
            </Option>
          </data_defined_properties>
        </layer>
        <layer class="SimpleMarker" enabled="1" locked="0" pass="0">
          <Option type="Map">
            <Option type="QString" name="angle" value="0"/>
            <Option type="QString" name="cap_style" value="square"/>
            <Option type="QString" name="color" value="242,242,242,255"/>
            <Option type="QString" name="horizontal_anchor_point" value="1"/>
            <Option type="QString" name="joinstyle" value="bevel"/>
            <Option type="QString" name="name" value="cross2"/>
            <Option type="QString" name="offset" value="0,0"/>
            <Option type="QString" name="offset_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="offset_unit" value="MM"/>
            <Option type="QString" name="outline_color" value="242,242,242,255"/>
            <Option type="QString" name="outline_style" value="solid"/>
            <Option type="QString" name="outline_width" value="0.5"/>
            <Option type="QString" name="outline_width_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="outline_width_unit" value="MM"/>
            <Option type="QString" name="scale_method" value="diameter"/>
            <Option type="QString" name="size" value="0"/>
            <Option type="QString" name="size_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="size_unit" value="MM"/>
            <Option type="QString" name="vertical_anchor_point" value="1"/>
          </Option>
          <prop k="angle" v="0"/>
          <prop k="cap_style" v="square"/>
          <prop k="color" v="242,242,242,255"/>
          <prop k="horizontal_anchor_point" v="1"/>
          <prop k="joinstyle" v="bevel"/>
          <prop k="name" v="cross2"/>
          <prop k="offset" v="0,0"/>
          <prop k="offset_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="offset_unit" v="MM"/>
          <prop k="outline_color" v="242,242,242,255"/>
          <prop k="outline_style" v="solid"/>
          <prop k="outline_width" v="0.5"/>
          <prop k="outline_width_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="outline_width_unit" v="MM"/>
          <prop k="scale_method" v="diameter"/>
          <prop k="size" v="0"/>
          <prop k="size_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="size_unit" v="MM"/>
          <prop k="vertical_anchor_point" v="1"/>
          <data_defined_properties>
            <Option type="Map">
              <Option type="QString" name="name" value=""/>
              <Option type="Map" name="properties">
                <Option type="Map" name="size">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="expression" value="if(lower(coalesce(&quot;status&quot;, '')) IN ('out of service', 'u/s', 'unserviceable', 'decommissioned', 'shutdown'), 6, 0)"/>
                  <Option type="int" name="type" value="3"/>
                </Option>
              </Option>
              <Option type="QString" name="type" value="collection"/>
            </Option>
          </data_defined_properties>
        </layer>
      </symbol>
      <symbol type="marker" force_rhr="0" clip_to_extent="1" alpha="1" name="2">
        <data_defined_properties>
          <Option type="Map">
            <Option type="QString" name="name" value=""/>
            <Option name="properties"/>
            <Option type="QString" name="type" value="collection"/>
          </Option>
        </data_defined_properties>
        <layer class="SvgMarker" enabled="1" locked="0" pass="0">
          <Option type="Map">
            <Option type="QString" name="angle" value="0"/>
            <Option type="QString" name="color" value="30,30,30,255"/>
            <Option type="QString" name="fixedAspectRatio" value="0"/>
            <Option type="QString" name="horizontal_anchor_point" value="1"/>
            <Option type="QString" name="name" value="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoOiB0aWNrcyBlYWNoIDEwIGRlZ3JlZXMsIGZpZ3VyZXMgZWFjaCAzMDwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgogIDxnIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIGZvbnQtZmFtaWx5PSJEZWphVnUgU2Fucywgc2Fucy1zZXJpZiIgZm9udC1zaXplPSI2IiB0ZXh0LWFuY2hvcj0ibWlkZGxlIj4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMCA1MCA1MCkiPjM8L3RleHQ+CiAgICA8dGV4dCB4PSI1MCIgeT0iMTEuNiIgdHJhbnNmb3JtPSJyb3RhdGUoNjAgNTAgNTApIj42PC90ZXh0PgogICAgPHRleHQgeD0iNTAiIHk9IjExLjYiIHRyYW5zZm9ybT0icm90YXRlKDkwIDUwIDUwKSI+OTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxMjAgNTAgNTApIj4xMjwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxNTAgNTAgNTApIj4xNTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxODAgNTAgNTApIj4xODwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyMTAgNTAgNTApIj4yMTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNDAgNTAgNTApIj4yNDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNzAgNTAgNTApIj4yNzwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMDAgNTAgNTApIj4zMDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMzAgNTAgNTApIj4zMzwvdGV4dD4KICA8L2c+Cjwvc3ZnPgo="/>
            <Option type="QString" name="offset" value="0,0"/>
            <Option type="QString" name="offset_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="offset_unit" value="MM"/>
            <Option type="QString" name="outline_color" value="180,180,180,255"/>
            <Option type="QString" name="outline_width" value="0.12"/>
            <Option type="QString" name="outline_width_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="outline_width_unit" value="MM"/>
            <Option name="parameters"/>
            <Option type="QString" name="scale_method" value="diameter"/>
            <Option type="QString" name="size" value="0"/>
            <Option type="QString" name="size_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="size_unit" value="MM"/>
            <Option type="QString" name="vertical_anchor_point" value="1"/>
          </Option>
          <prop k="angle" v="0"/>
          <prop k="color" v="30,30,30,255"/>
          <prop k="fixedAspectRatio" v="0"/>
          <prop k="horizontal_anchor_point" v="1"/>
          <prop k="name" v="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoOiB0aWNrcyBlYWNoIDEwIGRlZ3JlZXMsIGZpZ3VyZXMgZWFjaCAzMDwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgogIDxnIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIGZvbnQtZmFtaWx5PSJEZWphVnUgU2Fucywgc2Fucy1zZXJpZiIgZm9udC1zaXplPSI2IiB0ZXh0LWFuY2hvcj0ibWlkZGxlIj4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMCA1MCA1MCkiPjM8L3RleHQ+CiAgICA8dGV4dCB4PSI1MCIgeT0iMTEuNiIgdHJhbnNmb3JtPSJyb3RhdGUoNjAgNTAgNTApIj42PC90ZXh0PgogICAgPHRleHQgeD0iNTAiIHk9IjExLjYiIHRyYW5zZm9ybT0icm90YXRlKDkwIDUwIDUwKSI+OTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxMjAgNTAgNTApIj4xMjwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxNTAgNTAgNTApIj4xNTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxODAgNTAgNTApIj4xODwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyMTAgNTAgNTApIj4yMTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNDAgNTAgNTApIj4yNDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNzAgNTAgNTApIj4yNzwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMDAgNTAgNTApIj4zMDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMzAgNTAgNTApIj4zMzwvdGV4dD4KICA8L2c+Cjwvc3ZnPgo="/>
          <prop k="offset" v="0,0"/>
          <prop k="offset_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="offset_unit" v="MM"/>
          <prop k="outline_color" v="180,180,180,255"/>
          <prop k="outline_width" v="0.12"/>
          <prop k="outline_width_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="outline_width_unit" v="MM"/>
          <prop k="parameters" v=""/>
          <prop k="scale_method" v="diameter"/>
          <prop k="size" v="0"/>
          <prop k="size_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="size_unit" v="MM"/>
          <prop k="vertical_anchor_point" v="1"/>
          <data_defined_properties>
            <Option type="Map">
              <Option type="QString" name="name" value=""/>
              <Option type="Map" name="properties">
                <Option type="Map" name="angle">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="field" value="decl_deg"/>
                  <Option type="int" name="type" value="2"/>
                </Option>
                <Option type="Map" name="name">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="expression" value="if((@rose_mm IS NOT NULL OR @map_scale &lt;= 300000), 'base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoOiB0aWNrcyBlYWNoIDEwIGRlZ3JlZXMsIGZpZ3VyZXMgZWFjaCAzMDwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgogIDxnIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIGZvbnQtZmFtaWx5PSJEZWphVnUgU2Fucywgc2Fucy1zZXJpZiIgZm9udC1zaXplPSI2IiB0ZXh0LWFuY2hvcj0ibWlkZGxlIj4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMCA1MCA1MCkiPjM8L3RleHQ+CiAgICA8dGV4dCB4PSI1MCIgeT0iMTEuNiIgdHJhbnNmb3JtPSJyb3RhdGUoNjAgNTAgNTApIj42PC90ZXh0PgogICAgPHRleHQgeD0iNTAiIHk9IjExLjYiIHRyYW5zZm9ybT0icm90YXRlKDkwIDUwIDUwKSI+OTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxMjAgNTAgNTApIj4xMjwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxNTAgNTAgNTApIj4xNTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxODAgNTAgNTApIj4xODwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyMTAgNTAgNTApIj4yMTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNDAgNTAgNTApIj4yNDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNzAgNTAgNTApIj4yNzwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMDAgNTAgNTApIj4zMDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMzAgNTAgNTApIj4zMzwvdGV4dD4KICA8L2c+Cjwvc3ZnPgo=', 'base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoLCB0b28gc21hbGwgZm9yIGZpZ3VyZXM6IHRpY2tzIGVhY2ggMTAgZGVncmVlczwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgo8L3N2Zz4K')"/>
                  <Option type="int" name="type" value="3"/>
                </Option>
                <Option type="Map" name="size">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="expression" value="if(&quot;kind&quot; IN ('VOR', 'VOR/DME', 'VORTAC', 'TACAN') AND &quot;decl_deg&quot; IS NOT NULL, coalesce(@rose_mm, if((@rose_mm IS NOT NULL OR @map_scale &lt;= 300000), 30, 16)), 0)"/>
                  <Option type="int" name="type" value="3"/>
                </Option>
              </Option>
              <Option type="QString" name="type" value="collection"/>
            </Option>
          </data_defined_properties>
        </layer>
        <layer class="SvgMarker" enabled="1" locked="0" pass="0">
          <Option type="Map">
            <Option type="QString" name="angle" value="0"/>
            <Option type="QString" name="color" value="30,30,30,255"/>
            <Option type="QString" name="fixedAspectRatio" value="0"/>
            <Option type="QString" name="horizontal_anchor_point" value="1"/>
            <Option type="QString" name="name" value="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIyNCIgaGVpZ2h0PSIyNCIgdmlld0JveD0iMCAwIDI0IDI0Ij4KICA8dGl0bGU+Vk9SVEFDPC90aXRsZT4KICA8cG9seWdvbiBwb2ludHM9IjE4LjYwLDEyIDE1LjMwLDE3LjcyIDguNzAsMTcuNzIgNS40MCwxMiA4LjcwLDYuMjggMTUuMzAsNi4yOCIgZmlsbD0icGFyYW0oZmlsbCkgI2ZmZmZmZiIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDEuNCIvPgogIDxwb2x5Z29uIHBvaW50cz0iOC43MCwxNy43MiA4LjcwLDIyLjMyIDE1LjMwLDIyLjMyIDE1LjMwLDE3LjcyIiBmaWxsPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIi8+CiAgPHBvbHlnb24gcG9pbnRzPSI4LjcwLDYuMjggNC43MiwzLjk4IDEuNDIsOS43MCA1LjQwLDEyIiBmaWxsPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIi8+CiAgPHBvbHlnb24gcG9pbnRzPSIxOC42MCwxMiAyMi41OCw5LjcwIDE5LjI4LDMuOTggMTUuMzAsNi4yOCIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgogIDxjaXJjbGUgY3g9IjEyIiBjeT0iMTIiIHI9IjEuNiIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgo8L3N2Zz4K"/>
            <Option type="QString" name="offset" value="0,0"/>
            <Option type="QString" name="offset_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="offset_unit" value="MM"/>
            <Option type="QString" name="outline_color" value="242,242,242,255"/>
            <Option type="QString" name="outline_width" value="0.3"/>
            <Option type="QString" name="outline_width_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="outline_width_unit" value="MM"/>
            <Option name="parameters"/>
            <Option type="QString" name="scale_method" value="diameter"/>
            <Option type="QString" name="size" value="4.6"/>
            <Option type="QString" name="size_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="size_unit" value="MM"/>
            <Option type="QString" name="vertical_anchor_point" value="1"/>
          </Option>
          <prop k="angle" v="0"/>
          <prop k="color" v="30,30,30,255"/>
          <prop k="fixedAspectRatio" v="0"/>
          <prop k="horizontal_anchor_point" v="1"/>
          <prop k="name" v="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIyNCIgaGVpZ2h0PSIyNCIgdmlld0JveD0iMCAwIDI0IDI0Ij4KICA8dGl0bGU+Vk9SVEFDPC90aXRsZT4KICA8cG9seWdvbiBwb2ludHM9IjE4LjYwLDEyIDE1LjMwLDE3LjcyIDguNzAsMTcuNzIgNS40MCwxMiA4LjcwLDYuMjggMTUuMzAsNi4yOCIgZmlsbD0icGFyYW0oZmlsbCkgI2ZmZmZmZiIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDEuNCIvPgogIDxwb2x5Z29uIHBvaW50cz0iOC43MCwxNy43MiA4LjcwLDIyLjMyIDE1LjMwLDIyLjMyIDE1LjMwLDE3LjcyIiBmaWxsPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIi8+CiAgPHBvbHlnb24gcG9pbnRzPSI4LjcwLDYuMjggNC43MiwzLjk4IDEuNDIsOS43MCA1LjQwLDEyIiBmaWxsPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIi8+CiAgPHBvbHlnb24gcG9pbnRzPSIxOC42MCwxMiAyMi41OCw5LjcwIDE5LjI4LDMuOTggMTUuMzAsNi4yOCIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgogIDxjaXJjbGUgY3g9IjEyIiBjeT0iMTIiIHI9IjEuNiIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgo8L3N2Zz4K"/>
          <prop k="offset" v="0,0"/>
          <prop k="offset_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="offset_unit" v="MM"/>
          <prop k="outline_color" v="242,242,242,255"/>
          <prop k="outline_width" v="0.3"/>
          <prop k="outline_width_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="outline_width_unit" v="MM"/>
          <prop k="parameters" v=""/>
          <prop k="scale_method" v="diameter"/>
          <prop k="size" v="4.6"/>
          <prop k="size_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="size_unit" v="MM"/>
          <prop k="vertical_anchor_point" v="1"/>
          <data_defined_properties>
            <Option type="Map">
              <Option type="QString" name="name" value=""/>
              <Option name="properties"/>
              <Option type="QString" name="type" value="collection"/>
            </Option>
          </data_defined_properties>
        </layer>
        <layer class="SimpleMarker" enabled="1" locked="0" pass="0">
          <Option type="Map">
            <Option type="QString" name="angle" value="0"/>
            <Option type="QString" name="cap_style" value="square"/>
            <Option type="QString" name="color" value="242,242,242,255"/>
            <Option type="QString" name="horizontal_anchor_point" value="1"/>
            <Option type="QString" name="joinstyle" value="bevel"/>
            <Option type="QString" name="name" value="cross2"/>
            <Option type="QString" name="offset" value="0,0"/>
            <Option type="QString" name="offset_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="offset_unit" value="MM"/>
            <Option type="QString" name="outline_color" value="242,242,242,255"/>
            <Option type="QString" name="outline_style" value="solid"/>
            <Option type="QString" name="outline_width" value="0.5"/>
            <Option type="QString" name="outline_width_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="outline_width_unit" value="MM"/>
            <Option type="QString" name="scale_method" value="diameter"/>
            <Option type="QString" name="size" value="0"/>
            <Option type="QString" name="size_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="size_unit" value="MM"/>
            <Option type="QString" name="vertical_anchor_point" value="1"/>
          </Option>
          <prop k="angle" v="0"/>
          <prop k="cap_style" v="square"/>
          <prop k="color" v="242,242,242,255"/>
          <prop k="horizontal_anchor_point" v="1"/>
          <prop k="joinstyle" v="bevel"/>
          <prop k="name" v="cross2"/>
          <prop k="offset" v="0,0"/>
          <prop k="offset_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="offset_unit" v="MM"/>
          <prop k="outline_color" v="242,242,242,255"/>
          <prop k="outline_style" v="solid"/>
          <prop k="outline_width" v="0.5"/>
          <prop k="outline_width_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="outline_width_unit" v="MM"/>
          <prop k="scale_method" v="diameter"/>
          <prop k="size" v="0"/>
          <prop k="size_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="size_unit" v="MM"/>
          <prop k="vertical_anchor_point" v="1"/>
          <data_defined_properties>
            <Option type="Map">
              <Option type="QString" name="name" value=""/>
              <Option type="Map" name="properties">
                <Option type="Map" name="size">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="expression" value="if(lower(coalesce(&quot;status&quot;, '')) IN ('out of service', 'u/s', 'unserviceable', 'decommissioned', 'shutdown'), 6, 0)"/>
                  <Option type="int" name="type" value="3"/>
                </Option>
              </Option>
              <Option type="QString" name="type" value="collection"/>
            </Option>
          </data_defined_properties>
        </layer>
      </symbol>
      <symbol type="marker" force_rhr="0" clip_to_extent="1" alpha="1" name="3">
        <data_defined_properties>
          <Option type="Map">
            <Option type="QString" name="name" value=""/>
            <Option name="properties"/>
            <Option type="QString" name="type" value="collection"/>
          </Option>
        </data_defined_properties>
        <layer class="SvgMarker" enabled="1" locked="0" pass="0">
          <Option type="Map">
            <Option type="QString" name="angle" value="0"/>
            <Option type="QString" name="color" value="30,30,30,255"/>
            <Option type="QString" name="fixedAspectRatio" value="0"/>
            <Option type="QString" name="horizontal_anchor_point" value="1"/>
            <Option type="QString" name="name" value="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoOiB0aWNrcyBlYWNoIDEwIGRlZ3JlZXMsIGZpZ3VyZXMgZWFjaCAzMDwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgogIDxnIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIGZvbnQtZmFtaWx5PSJEZWphVnUgU2Fucywgc2Fucy1zZXJpZiIgZm9udC1zaXplPSI2IiB0ZXh0LWFuY2hvcj0ibWlkZGxlIj4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMCA1MCA1MCkiPjM8L3RleHQ+CiAgICA8dGV4dCB4PSI1MCIgeT0iMTEuNiIgdHJhbnNmb3JtPSJyb3RhdGUoNjAgNTAgNTApIj42PC90ZXh0PgogICAgPHRleHQgeD0iNTAiIHk9IjExLjYiIHRyYW5zZm9ybT0icm90YXRlKDkwIDUwIDUwKSI+OTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxMjAgNTAgNTApIj4xMjwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxNTAgNTAgNTApIj4xNTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxODAgNTAgNTApIj4xODwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyMTAgNTAgNTApIj4yMTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNDAgNTAgNTApIj4yNDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNzAgNTAgNTApIj4yNzwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMDAgNTAgNTApIj4zMDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMzAgNTAgNTApIj4zMzwvdGV4dD4KICA8L2c+Cjwvc3ZnPgo="/>
            <Option type="QString" name="offset" value="0,0"/>
            <Option type="QString" name="offset_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="offset_unit" value="MM"/>
            <Option type="QString" name="outline_color" value="180,180,180,255"/>
            <Option type="QString" name="outline_width" value="0.12"/>
            <Option type="QString" name="outline_width_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="outline_width_unit" value="MM"/>
            <Option name="parameters"/>
            <Option type="QString" name="scale_method" value="diameter"/>
            <Option type="QString" name="size" value="0"/>
            <Option type="QString" name="size_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="size_unit" value="MM"/>
            <Option type="QString" name="vertical_anchor_point" value="1"/>
          </Option>
          <prop k="angle" v="0"/>
          <prop k="color" v="30,30,30,255"/>
          <prop k="fixedAspectRatio" v="0"/>
          <prop k="horizontal_anchor_point" v="1"/>
          <prop k="name" v="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoOiB0aWNrcyBlYWNoIDEwIGRlZ3JlZXMsIGZpZ3VyZXMgZWFjaCAzMDwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgogIDxnIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIGZvbnQtZmFtaWx5PSJEZWphVnUgU2Fucywgc2Fucy1zZXJpZiIgZm9udC1zaXplPSI2IiB0ZXh0LWFuY2hvcj0ibWlkZGxlIj4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMCA1MCA1MCkiPjM8L3RleHQ+CiAgICA8dGV4dCB4PSI1MCIgeT0iMTEuNiIgdHJhbnNmb3JtPSJyb3RhdGUoNjAgNTAgNTApIj42PC90ZXh0PgogICAgPHRleHQgeD0iNTAiIHk9IjExLjYiIHRyYW5zZm9ybT0icm90YXRlKDkwIDUwIDUwKSI+OTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxMjAgNTAgNTApIj4xMjwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxNTAgNTAgNTApIj4xNTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxODAgNTAgNTApIj4xODwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyMTAgNTAgNTApIj4yMTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNDAgNTAgNTApIj4yNDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNzAgNTAgNTApIj4yNzwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMDAgNTAgNTApIj4zMDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMzAgNTAgNTApIj4zMzwvdGV4dD4KICA8L2c+Cjwvc3ZnPgo="/>
          <prop k="offset" v="0,0"/>
          <prop k="offset_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="offset_unit" v="MM"/>
          <prop k="outline_color" v="180,180,180,255"/>
          <prop k="outline_width" v="0.12"/>
          <prop k="outline_width_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="outline_width_unit" v="MM"/>
          <prop k="parameters" v=""/>
          <prop k="scale_method" v="diameter"/>
          <prop k="size" v="0"/>
          <prop k="size_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="size_unit" v="MM"/>
          <prop k="vertical_anchor_point" v="1"/>
          <data_defined_properties>
            <Option type="Map">
              <Option type="QString" name="name" value=""/>
              <Option type="Map" name="properties">
                <Option type="Map" name="angle">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="field" value="decl_deg"/>
                  <Option type="int" name="type" value="2"/>
                </Option>
                <Option type="Map" name="name">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="expression" value="if((@rose_mm IS NOT NULL OR @map_scale &lt;= 300000), 'base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoOiB0aWNrcyBlYWNoIDEwIGRlZ3JlZXMsIGZpZ3VyZXMgZWFjaCAzMDwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgogIDxnIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIGZvbnQtZmFtaWx5PSJEZWphVnUgU2Fucywgc2Fucy1zZXJpZiIgZm9udC1zaXplPSI2IiB0ZXh0LWFuY2hvcj0ibWlkZGxlIj4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMCA1MCA1MCkiPjM8L3RleHQ+CiAgICA8dGV4dCB4PSI1MCIgeT0iMTEuNiIgdHJhbnNmb3JtPSJyb3RhdGUoNjAgNTAgNTApIj42PC90ZXh0PgogICAgPHRleHQgeD0iNTAiIHk9IjExLjYiIHRyYW5zZm9ybT0icm90YXRlKDkwIDUwIDUwKSI+OTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxMjAgNTAgNTApIj4xMjwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxNTAgNTAgNTApIj4xNTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxODAgNTAgNTApIj4xODwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyMTAgNTAgNTApIj4yMTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNDAgNTAgNTApIj4yNDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNzAgNTAgNTApIj4yNzwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMDAgNTAgNTApIj4zMDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMzAgNTAgNTApIj4zMzwvdGV4dD4KICA8L2c+Cjwvc3ZnPgo=', 'base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoLCB0b28gc21hbGwgZm9yIGZpZ3VyZXM6IHRpY2tzIGVhY2ggMTAgZGVncmVlczwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgo8L3N2Zz4K')"/>
                  <Option type="int" name="type" value="3"/>
                </Option>
                <Option type="Map" name="size">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="expression" value="if(&quot;kind&quot; IN ('VOR', 'VOR/DME', 'VORTAC', 'TACAN') AND &quot;decl_deg&quot; IS NOT NULL, coalesce(@rose_mm, if((@rose_mm IS NOT NULL OR @map_scale &lt;= 300000), 30, 16)), 0)"/>
                  <Option type="int" name="type" value="3"/>
                </Option>
              </Option>
              <Option type="QString" name="type" value="collection"/>
            </Option>
          </data_defined_properties>
        </layer>
        <layer class="SvgMarker" enabled="1" locked="0" pass="0">
          <Option type="Map">
            <Option type="QString" name="angle" value="0"/>
            <Option type="QString" name="color" value="30,30,30,255"/>
            <Option type="QString" name="fixedAspectRatio" value="0"/>
            <Option type="QString" name="horizontal_anchor_point" value="1"/>
            <Option type="QString" name="name" value="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIyNCIgaGVpZ2h0PSIyNCIgdmlld0JveD0iMCAwIDI0IDI0Ij4KICA8dGl0bGU+VEFDQU48L3RpdGxlPgogIDxwb2x5Z29uIHBvaW50cz0iMTQuNjQsMTYuNTcgMTQuNjQsMjIuNjIgOS4zNiwyMi42MiA5LjM2LDE2LjU3IDYuNzIsMTIgMS40OSw4Ljk4IDQuMTMsNC40MSA5LjM2LDcuNDMgMTQuNjQsNy40MyAxOS44Nyw0LjQxIDIyLjUxLDguOTggMTcuMjgsMTIiIGZpbGw9InBhcmFtKGZpbGwpICNmZmZmZmYiIHN0cm9rZT0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIgc3Ryb2tlLXdpZHRoPSJwYXJhbShvdXRsaW5lLXdpZHRoKSAxLjQiIHN0cm9rZS1saW5lam9pbj0ibWl0ZXIiLz4KICA8Y2lyY2xlIGN4PSIxMiIgY3k9IjEyIiByPSIxLjYiIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiLz4KPC9zdmc+Cg=="/>
            <Option type="QString" name="offset" value="0,0"/>
            <Option type="QString" name="offset_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="offset_unit" value="MM"/>
            <Option type="QString" name="outline_color" value="242,242,242,255"/>
            <Option type="QString" name="outline_width" value="0.3"/>
            <Option type="QString" name="outline_width_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="outline_width_unit" value="MM"/>
            <Option name="parameters"/>
            <Option type="QString" name="scale_method" value="diameter"/>
            <Option type="QString" name="size" value="4.6"/>
            <Option type="QString" name="size_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="size_unit" value="MM"/>
            <Option type="QString" name="vertical_anchor_point" value="1"/>
          </Option>
          <prop k="angle" v="0"/>
          <prop k="color" v="30,30,30,255"/>
          <prop k="fixedAspectRatio" v="0"/>
          <prop k="horizontal_anchor_point" v="1"/>
          <prop k="name" v="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIyNCIgaGVpZ2h0PSIyNCIgdmlld0JveD0iMCAwIDI0IDI0Ij4KICA8dGl0bGU+VEFDQU48L3RpdGxlPgogIDxwb2x5Z29uIHBvaW50cz0iMTQuNjQsMTYuNTcgMTQuNjQsMjIuNjIgOS4zNiwyMi42MiA5LjM2LDE2LjU3IDYuNzIsMTIgMS40OSw4Ljk4IDQuMTMsNC40MSA5LjM2LDcuNDMgMTQuNjQsNy40MyAxOS44Nyw0LjQxIDIyLjUxLDguOTggMTcuMjgsMTIiIGZpbGw9InBhcmFtKGZpbGwpICNmZmZmZmYiIHN0cm9rZT0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIgc3Ryb2tlLXdpZHRoPSJwYXJhbShvdXRsaW5lLXdpZHRoKSAxLjQiIHN0cm9rZS1saW5lam9pbj0ibWl0ZXIiLz4KICA8Y2lyY2xlIGN4PSIxMiIgY3k9IjEyIiByPSIxLjYiIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiLz4KPC9zdmc+Cg=="/>
          <prop k="offset" v="0,0"/>
          <prop k="offset_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="offset_unit" v="MM"/>
          <prop k="outline_color" v="242,242,242,255"/>
          <prop k="outline_width" v="0.3"/>
          <prop k="outline_width_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="outline_width_unit" v="MM"/>
          <prop k="parameters" v=""/>
          <prop k="scale_method" v="diameter"/>
          <prop k="size" v="4.6"/>
          <prop k="size_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="size_unit" v="MM"/>
          <prop k="vertical_anchor_point" v="1"/>
          <data_defined_properties>
            <Option type="Map">
              <Option type="QString" name="name" value=""/>
              <Option name="properties"/>
              <Option type="QString" name="type" value="collection"/>
            </Option>
          </data_defined_properties>
        </layer>
        <layer class="SimpleMarker" enabled="1" locked="0" pass="0">
          <Option type="Map">
            <Option type="QString" name="angle" value="0"/>
            <Option type="QString" name="cap_style" value="square"/>
            <Option type="QString" name="color" value="242,242,242,255"/>
            <Option type="QString" name="horizontal_anchor_point" value="1"/>
            <Option type="QString" name="joinstyle" value="bevel"/>
            <Option type="QString" name="name" value="cross2"/>
            <Option type="QString" name="offset" value="0,0"/>
            <Option type="QString" name="offset_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="offset_unit" value="MM"/>
            <Option type="QString" name="outline_color" value="242,242,242,255"/>
            <Option type="QString" name="outline_style" value="solid"/>
            <Option type="QString" name="outline_width" value="0.5"/>
            <Option type="QString" name="outline_width_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="outline_width_unit" value="MM"/>
            <Option type="QString" name="scale_method" value="diameter"/>
            <Option type="QString" name="size" value="0"/>
            <Option type="QString" name="size_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="size_unit" value="MM"/>
            <Option type="QString" name="vertical_anchor_point" value="1"/>
          </Option>
          <prop k="angle" v="0"/>
          <prop k="cap_style" v="square"/>
          <prop k="color" v="242,242,242,255"/>
          <prop k="horizontal_anchor_point" v="1"/>
          <prop k="joinstyle" v="bevel"/>
          <prop k="name" v="cross2"/>
          <prop k="offset" v="0,0"/>
          <prop k="offset_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="offset_unit" v="MM"/>
          <prop k="outline_color" v="242,242,242,255"/>
          <prop k="outline_style" v="solid"/>
          <prop k="outline_width" v="0.5"/>
          <prop k="outline_width_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="outline_width_unit" v="MM"/>
          <prop k="scale_method" v="diameter"/>
          <prop k="size" v="0"/>
          <prop k="size_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="size_unit" v="MM"/>
          <prop k="vertical_anchor_point" v="1"/>
          <data_defined_properties>
            <Option type="Map">
              <Option type="QString" name="name" value=""/>
              <Option type="Map" name="properties">
                <Option type="Map" name="size">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="expression" value="if(lower(coalesce(&quot;status&quot;, '')) IN ('out of service', 'u/s', 'unserviceable', 'decommissioned', 'shutdown'), 6, 0)"/>
                  <Option type="int" name="type" value="3"/>
                </Option>
              </Option>
              <Option type="QString" name="type" value="collection"/>
            </Option>
          </data_defined_properties>
        </layer>
      </symbol>
      <symbol type="marker" force_rhr="0" clip_to_extent="1" alpha="1" name="4">
        <data_defined_properties>
          <Option type="Map">
            <Option type="QString" name="name" value=""/>
            <Option name="properties"/>
            <Option type="QString" name="type" value="collection"/>
          </Option>
        </data_defined_properties>
        <layer class="SvgMarker" enabled="1" locked="0" pass="0">
          <Option type="Map">
            <Option type="QString" name="angle" value="0"/>
            <Option type="QString" name="color" value="30,30,30,255"/>
            <Option type="QString" name="fixedAspectRatio" value="0"/>
            <Option type="QString" name="horizontal_anchor_point" value="1"/>
            <Option type="QString" name="name" value="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoOiB0aWNrcyBlYWNoIDEwIGRlZ3JlZXMsIGZpZ3VyZXMgZWFjaCAzMDwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgogIDxnIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIGZvbnQtZmFtaWx5PSJEZWphVnUgU2Fucywgc2Fucy1zZXJpZiIgZm9udC1zaXplPSI2IiB0ZXh0LWFuY2hvcj0ibWlkZGxlIj4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMCA1MCA1MCkiPjM8L3RleHQ+CiAgICA8dGV4dCB4PSI1MCIgeT0iMTEuNiIgdHJhbnNmb3JtPSJyb3RhdGUoNjAgNTAgNTApIj42PC90ZXh0PgogICAgPHRleHQgeD0iNTAiIHk9IjExLjYiIHRyYW5zZm9ybT0icm90YXRlKDkwIDUwIDUwKSI+OTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxMjAgNTAgNTApIj4xMjwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxNTAgNTAgNTApIj4xNTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxODAgNTAgNTApIj4xODwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyMTAgNTAgNTApIj4yMTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNDAgNTAgNTApIj4yNDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNzAgNTAgNTApIj4yNzwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMDAgNTAgNTApIj4zMDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMzAgNTAgNTApIj4zMzwvdGV4dD4KICA8L2c+Cjwvc3ZnPgo="/>
            <Option type="QString" name="offset" value="0,0"/>
            <Option type="QString" name="offset_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="offset_unit" value="MM"/>
            <Option type="QString" name="outline_color" value="180,180,180,255"/>
            <Option type="QString" name="outline_width" value="0.12"/>
            <Option type="QString" name="outline_width_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="outline_width_unit" value="MM"/>
            <Option name="parameters"/>
            <Option type="QString" name="scale_method" value="diameter"/>
            <Option type="QString" name="size" value="0"/>
            <Option type="QString" name="size_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="size_unit" value="MM"/>
            <Option type="QString" name="vertical_anchor_point" value="1"/>
          </Option>
          <prop k="angle" v="0"/>
          <prop k="color" v="30,30,30,255"/>
          <prop k="fixedAspectRatio" v="0"/>
          <prop k="horizontal_anchor_point" v="1"/>
          <prop k="name" v="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoOiB0aWNrcyBlYWNoIDEwIGRlZ3JlZXMsIGZpZ3VyZXMgZWFjaCAzMDwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgogIDxnIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIGZvbnQtZmFtaWx5PSJEZWphVnUgU2Fucywgc2Fucy1zZXJpZiIgZm9udC1zaXplPSI2IiB0ZXh0LWFuY2hvcj0ibWlkZGxlIj4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMCA1MCA1MCkiPjM8L3RleHQ+CiAgICA8dGV4dCB4PSI1MCIgeT0iMTEuNiIgdHJhbnNmb3JtPSJyb3RhdGUoNjAgNTAgNTApIj42PC90ZXh0PgogICAgPHRleHQgeD0iNTAiIHk9IjExLjYiIHRyYW5zZm9ybT0icm90YXRlKDkwIDUwIDUwKSI+OTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxMjAgNTAgNTApIj4xMjwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxNTAgNTAgNTApIj4xNTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxODAgNTAgNTApIj4xODwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyMTAgNTAgNTApIj4yMTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNDAgNTAgNTApIj4yNDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNzAgNTAgNTApIj4yNzwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMDAgNTAgNTApIj4zMDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMzAgNTAgNTApIj4zMzwvdGV4dD4KICA8L2c+Cjwvc3ZnPgo="/>
          <prop k="offset" v="0,0"/>
          <prop k="offset_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="offset_unit" v="MM"/>
          <prop k="outline_color" v="180,180,180,255"/>
          <prop k="outline_width" v="0.12"/>
          <prop k="outline_width_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="outline_width_unit" v="MM"/>
          <prop k="parameters" v=""/>
          <prop k="scale_method" v="diameter"/>
          <prop k="size" v="0"/>
          <prop k="size_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="size_unit" v="MM"/>
          <prop k="vertical_anchor_point" v="1"/>
          <data_defined_properties>
            <Option type="Map">
              <Option type="QString" name="name" value=""/>
              <Option type="Map" name="properties">
                <Option type="Map" name="angle">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="field" value="decl_deg"/>
                  <Option type="int" name="type" value="2"/>
                </Option>
                <Option type="Map" name="name">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="expression" value="if((@rose_mm IS NOT NULL OR @map_scale &lt;= 300000), 'base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoOiB0aWNrcyBlYWNoIDEwIGRlZ3JlZXMsIGZpZ3VyZXMgZWFjaCAzMDwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgogIDxnIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIGZvbnQtZmFtaWx5PSJEZWphVnUgU2Fucywgc2Fucy1zZXJpZiIgZm9udC1zaXplPSI2IiB0ZXh0LWFuY2hvcj0ibWlkZGxlIj4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMCA1MCA1MCkiPjM8L3RleHQ+CiAgICA8dGV4dCB4PSI1MCIgeT0iMTEuNiIgdHJhbnNmb3JtPSJyb3RhdGUoNjAgNTAgNTApIj42PC90ZXh0PgogICAgPHRleHQgeD0iNTAiIHk9IjExLjYiIHRyYW5zZm9ybT0icm90YXRlKDkwIDUwIDUwKSI+OTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxMjAgNTAgNTApIj4xMjwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxNTAgNTAgNTApIj4xNTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxODAgNTAgNTApIj4xODwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyMTAgNTAgNTApIj4yMTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNDAgNTAgNTApIj4yNDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNzAgNTAgNTApIj4yNzwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMDAgNTAgNTApIj4zMDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMzAgNTAgNTApIj4zMzwvdGV4dD4KICA8L2c+Cjwvc3ZnPgo=', 'base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoLCB0b28gc21hbGwgZm9yIGZpZ3VyZXM6IHRpY2tzIGVhY2ggMTAgZGVncmVlczwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgo8L3N2Zz4K')"/>
                  <Option type="int" name="type" value="3"/>
                </Option>
                <Option type="Map" name="size">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="expression" value="if(&quot;kind&quot; IN ('VOR', 'VOR/DME', 'VORTAC', 'TACAN') AND &quot;decl_deg&quot; IS NOT NULL, coalesce(@rose_mm, if((@rose_mm IS NOT NULL OR @map_scale &lt;= 300000), 30, 16)), 0)"/>
                  <Option type="int" name="type" value="3"/>
                </Option>
              </Option>
              <Option type="QString" name="type" value="collection"/>
            </Option>
          </data_defined_properties>
        </layer>
        <layer class="SvgMarker" enabled="1" locked="0" pass="0">
          <Option type="Map">
            <Option type="QString" name="angle" value="0"/>
            <Option type="QString" name="color" value="30,30,30,255"/>
            <Option type="QString" name="fixedAspectRatio" value="0"/>
            <Option type="QString" name="horizontal_anchor_point" value="1"/>
            <Option type="QString" name="name" value="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIyNCIgaGVpZ2h0PSIyNCIgdmlld0JveD0iMCAwIDI0IDI0Ij4KICA8dGl0bGU+RE1FPC90aXRsZT4KICA8cmVjdCB4PSIzLjUiIHk9IjMuNSIgd2lkdGg9IjE3IiBoZWlnaHQ9IjE3IiBmaWxsPSJwYXJhbShmaWxsKSAjZmZmZmZmIiBzdHJva2U9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIHN0cm9rZS13aWR0aD0icGFyYW0ob3V0bGluZS13aWR0aCkgMS40Ii8+Cjwvc3ZnPgo="/>
            <Option type="QString" name="offset" value="0,0"/>
            <Option type="QString" name="offset_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="offset_unit" value="MM"/>
            <Option type="QString" name="outline_color" value="242,242,242,255"/>
            <Option type="QString" name="outline_width" value="0.3"/>
            <Option type="QString" name="outline_width_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="outline_width_unit" value="MM"/>
            <Option name="parameters"/>
            <Option type="QString" name="scale_method" value="diameter"/>
            <Option type="QString" name="size" value="4.6"/>
            <Option type="QString" name="size_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="size_unit" value="MM"/>
            <Option type="QString" name="vertical_anchor_point" value="1"/>
          </Option>
          <prop k="angle" v="0"/>
          <prop k="color" v="30,30,30,255"/>
          <prop k="fixedAspectRatio" v="0"/>
          <prop k="horizontal_anchor_point" v="1"/>
          <prop k="name" v="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIyNCIgaGVpZ2h0PSIyNCIgdmlld0JveD0iMCAwIDI0IDI0Ij4KICA8dGl0bGU+RE1FPC90aXRsZT4KICA8cmVjdCB4PSIzLjUiIHk9IjMuNSIgd2lkdGg9IjE3IiBoZWlnaHQ9IjE3IiBmaWxsPSJwYXJhbShmaWxsKSAjZmZmZmZmIiBzdHJva2U9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIHN0cm9rZS13aWR0aD0icGFyYW0ob3V0bGluZS13aWR0aCkgMS40Ii8+Cjwvc3ZnPgo="/>
          <prop k="offset" v="0,0"/>
          <prop k="offset_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="offset_unit" v="MM"/>
          <prop k="outline_color" v="242,242,242,255"/>
          <prop k="outline_width" v="0.3"/>
          <prop k="outline_width_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="outline_width_unit" v="MM"/>
          <prop k="parameters" v=""/>
          <prop k="scale_method" v="diameter"/>
          <prop k="size" v="4.6"/>
          <prop k="size_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="size_unit" v="MM"/>
          <prop k="vertical_anchor_point" v="1"/>
          <data_defined_properties>
            <Option type="Map">
              <Option type="QString" name="name" value=""/>
              <Option name="properties"/>
              <Option type="QString" name="type" value="collection"/>
            </Option>
          </data_defined_properties>
        </layer>
        <layer class="SimpleMarker" enabled="1" locked="0" pass="0">
          <Option type="Map">
            <Option type="QString" name="angle" value="0"/>
            <Option type="QString" name="cap_style" value="square"/>
            <Option type="QString" name="color" value="242,242,242,255"/>
            <Option type="QString" name="horizontal_anchor_point" value="1"/>
            <Option type="QString" name="joinstyle" value="bevel"/>
            <Option type="QString" name="name" value="cross2"/>
            <Option type="QString" name="offset" value="0,0"/>
            <Option type="QString" name="offset_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="offset_unit" value="MM"/>
            <Option type="QString" name="outline_color" value="242,242,242,255"/>
            <Option type="QString" name="outline_style" value="solid"/>
            <Option type="QString" name="outline_width" value="0.5"/>
            <Option type="QString" name="outline_width_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="outline_width_unit" value="MM"/>
            <Option type="QString" name="scale_method" value="diameter"/>
            <Option type="QString" name="size" value="0"/>
            <Option type="QString" name="size_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="size_unit" value="MM"/>
            <Option type="QString" name="vertical_anchor_point" value="1"/>
          </Option>
          <prop k="angle" v="0"/>
          <prop k="cap_style" v="square"/>
          <prop k="color" v="242,242,242,255"/>
          <prop k="horizontal_anchor_point" v="1"/>
          <prop k="joinstyle" v="bevel"/>
          <prop k="name" v="cross2"/>
          <prop k="offset" v="0,0"/>
          <prop k="offset_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="offset_unit" v="MM"/>
          <prop k="outline_color" v="242,242,242,255"/>
          <prop k="outline_style" v="solid"/>
          <prop k="outline_width" v="0.5"/>
          <prop k="outline_width_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="outline_width_unit" v="MM"/>
          <prop k="scale_method" v="diameter"/>
          <prop k="size" v="0"/>
          <prop k="size_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="size_unit" v="MM"/>
          <prop k="vertical_anchor_point" v="1"/>
          <data_defined_properties>
            <Option type="Map">
              <Option type="QString" name="name" value=""/>
              <Option type="Map" name="properties">
                <Option type="Map" name="size">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="expression" value="if(lower(coalesce(&quot;status&quot;, '')) IN ('out of service', 'u/s', 'unserviceable', 'decommissioned', 'shutdown'), 6, 0)"/>
                  <Option type="int" name="type" value="3"/>
                </Option>
              </Option>
              <Option type="QString" name="type" value="collection"/>
            </Option>
          </data_defined_properties>
        </layer>
      </symbol>
      <symbol type="marker" force_rhr="0" clip_to_extent="1" alpha="1" name="5">
        <data_defined_properties>
          <Option type="Map">
            <Option type="QString" name="name" value=""/>
            <Option name="properties"/>
            <Option type="QString" name="type" value="collection"/>
          </Option>
        </data_defined_properties>
        <layer class="SvgMarker" enabled="1" locked="0" pass="0">
          <Option type="Map">
            <Option type="QString" name="angle" value="0"/>
            <Option type="QString" name="color" value="30,30,30,255"/>
            <Option type="QString" name="fixedAspectRatio" value="0"/>
            <Option type="QString" name="horizontal_anchor_point" value="1"/>
            <Option type="QString" name="name" value="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoOiB0aWNrcyBlYWNoIDEwIGRlZ3JlZXMsIGZpZ3VyZXMgZWFjaCAzMDwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgogIDxnIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIGZvbnQtZmFtaWx5PSJEZWphVnUgU2Fucywgc2Fucy1zZXJpZiIgZm9udC1zaXplPSI2IiB0ZXh0LWFuY2hvcj0ibWlkZGxlIj4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMCA1MCA1MCkiPjM8L3RleHQ+CiAgICA8dGV4dCB4PSI1MCIgeT0iMTEuNiIgdHJhbnNmb3JtPSJyb3RhdGUoNjAgNTAgNTApIj42PC90ZXh0PgogICAgPHRleHQgeD0iNTAiIHk9IjExLjYiIHRyYW5zZm9ybT0icm90YXRlKDkwIDUwIDUwKSI+OTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxMjAgNTAgNTApIj4xMjwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxNTAgNTAgNTApIj4xNTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxODAgNTAgNTApIj4xODwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyMTAgNTAgNTApIj4yMTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNDAgNTAgNTApIj4yNDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNzAgNTAgNTApIj4yNzwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMDAgNTAgNTApIj4zMDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMzAgNTAgNTApIj4zMzwvdGV4dD4KICA8L2c+Cjwvc3ZnPgo="/>
            <Option type="QString" name="offset" value="0,0"/>
            <Option type="QString" name="offset_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="offset_unit" value="MM"/>
            <Option type="QString" name="outline_color" value="180,180,180,255"/>
            <Option type="QString" name="outline_width" value="0.12"/>
            <Option type="QString" name="outline_width_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="outline_width_unit" value="MM"/>
            <Option name="parameters"/>
            <Option type="QString" name="scale_method" value="diameter"/>
            <Option type="QString" name="size" value="0"/>
            <Option type="QString" name="size_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="size_unit" value="MM"/>
            <Option type="QString" name="vertical_anchor_point" value="1"/>
          </Option>
          <prop k="angle" v="0"/>
          <prop k="color" v="30,30,30,255"/>
          <prop k="fixedAspectRatio" v="0"/>
          <prop k="horizontal_anchor_point" v="1"/>
          <prop k="name" v="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoOiB0aWNrcyBlYWNoIDEwIGRlZ3JlZXMsIGZpZ3VyZXMgZWFjaCAzMDwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgogIDxnIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIGZvbnQtZmFtaWx5PSJEZWphVnUgU2Fucywgc2Fucy1zZXJpZiIgZm9udC1zaXplPSI2IiB0ZXh0LWFuY2hvcj0ibWlkZGxlIj4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMCA1MCA1MCkiPjM8L3RleHQ+CiAgICA8dGV4dCB4PSI1MCIgeT0iMTEuNiIgdHJhbnNmb3JtPSJyb3RhdGUoNjAgNTAgNTApIj42PC90ZXh0PgogICAgPHRleHQgeD0iNTAiIHk9IjExLjYiIHRyYW5zZm9ybT0icm90YXRlKDkwIDUwIDUwKSI+OTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxMjAgNTAgNTApIj4xMjwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxNTAgNTAgNTApIj4xNTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxODAgNTAgNTApIj4xODwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyMTAgNTAgNTApIj4yMTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNDAgNTAgNTApIj4yNDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNzAgNTAgNTApIj4yNzwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMDAgNTAgNTApIj4zMDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMzAgNTAgNTApIj4zMzwvdGV4dD4KICA8L2c+Cjwvc3ZnPgo="/>
          <prop k="offset" v="0,0"/>
          <prop k="offset_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="offset_unit" v="MM"/>
          <prop k="outline_color" v="180,180,180,255"/>
          <prop k="outline_width" v="0.12"/>
          <prop k="outline_width_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="outline_width_unit" v="MM"/>
          <prop k="parameters" v=""/>
          <prop k="scale_method" v="diameter"/>
          <prop k="size" v="0"/>
          <prop k="size_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="size_unit" v="MM"/>
          <prop k="vertical_anchor_point" v="1"/>
          <data_defined_properties>
            <Option type="Map">
              <Option type="QString" name="name" value=""/>
              <Option type="Map" name="properties">
                <Option type="Map" name="angle">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="field" value="decl_deg"/>
                  <Option type="int" name="type" value="2"/>
                </Option>
                <Option type="Map" name="name">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="expression" value="if((@rose_mm IS NOT NULL OR @map_scale &lt;= 300000), 'base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoOiB0aWNrcyBlYWNoIDEwIGRlZ3JlZXMsIGZpZ3VyZXMgZWFjaCAzMDwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgogIDxnIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIGZvbnQtZmFtaWx5PSJEZWphVnUgU2Fucywgc2Fucy1zZXJpZiIgZm9udC1zaXplPSI2IiB0ZXh0LWFuY2hvcj0ibWlkZGxlIj4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMCA1MCA1MCkiPjM8L3RleHQ+CiAgICA8dGV4dCB4PSI1MCIgeT0iMTEuNiIgdHJhbnNmb3JtPSJyb3RhdGUoNjAgNTAgNTApIj42PC90ZXh0PgogICAgPHRleHQgeD0iNTAiIHk9IjExLjYiIHRyYW5zZm9ybT0icm90YXRlKDkwIDUwIDUwKSI+OTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxMjAgNTAgNTApIj4xMjwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxNTAgNTAgNTApIj4xNTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxODAgNTAgNTApIj4xODwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyMTAgNTAgNTApIj4yMTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNDAgNTAgNTApIj4yNDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNzAgNTAgNTApIj4yNzwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMDAgNTAgNTApIj4zMDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMzAgNTAgNTApIj4zMzwvdGV4dD4KICA8L2c+Cjwvc3ZnPgo=', 'base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoLCB0b28gc21hbGwgZm9yIGZpZ3VyZXM6IHRpY2tzIGVhY2ggMTAgZGVncmVlczwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgo8L3N2Zz4K')"/>
                  <Option type="int" name="type" value="3"/>
                </Option>
                <Option type="Map" name="size">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="expression" value="if(&quot;kind&quot; IN ('VOR', 'VOR/DME', 'VORTAC', 'TACAN') AND &quot;decl_deg&quot; IS NOT NULL, coalesce(@rose_mm, if((@rose_mm IS NOT NULL OR @map_scale &lt;= 300000), 30, 16)), 0)"/>
                  <Option type="int" name="type" value="3"/>
                </Option>
              </Option>
              <Option type="QString" name="type" value="collection"/>
            </Option>
          </data_defined_properties>
        </layer>
        <layer class="SvgMarker" enabled="1" locked="0" pass="0">
          <Option type="Map">
            <Option type="QString" name="angle" value="0"/>
            <Option type="QString" name="color" value="30,30,30,255"/>
            <Option type="QString" name="fixedAspectRatio" value="0"/>
            <Option type="QString" name="horizontal_anchor_point" value="1"/>
            <Option type="QString" name="name" value="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIyNCIgaGVpZ2h0PSIyNCIgdmlld0JveD0iMCAwIDI0IDI0Ij4KICA8dGl0bGU+TkRCPC90aXRsZT4KICA8ZyBmaWxsPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIj4KICAgIDxjaXJjbGUgY3g9IjEyLjAwIiBjeT0iNi42MCIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iMTQuNzAiIGN5PSI3LjMyIiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSIxNi42OCIgY3k9IjkuMzAiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjE3LjQwIiBjeT0iMTIuMDAiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjE2LjY4IiBjeT0iMTQuNzAiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjE0LjcwIiBjeT0iMTYuNjgiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjEyLjAwIiBjeT0iMTcuNDAiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjkuMzAiIGN5PSIxNi42OCIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iNy4zMiIgY3k9IjE0LjcwIiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSI2LjYwIiBjeT0iMTIuMDAiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjcuMzIiIGN5PSI5LjMwIiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSI5LjMwIiBjeT0iNy4zMiIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iMTIuMDAiIGN5PSI0LjAwIiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSIxNC43NCIgY3k9IjQuNDgiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjE3LjE0IiBjeT0iNS44NyIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iMTguOTMiIGN5PSI4LjAwIiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSIxOS44OCIgY3k9IjEwLjYxIiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSIxOS44OCIgY3k9IjEzLjM5IiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSIxOC45MyIgY3k9IjE2LjAwIiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSIxNy4xNCIgY3k9IjE4LjEzIiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSIxNC43NCIgY3k9IjE5LjUyIiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSIxMi4wMCIgY3k9IjIwLjAwIiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSI5LjI2IiBjeT0iMTkuNTIiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjYuODYiIGN5PSIxOC4xMyIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iNS4wNyIgY3k9IjE2LjAwIiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSI0LjEyIiBjeT0iMTMuMzkiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjQuMTIiIGN5PSIxMC42MSIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iNS4wNyIgY3k9IjguMDAiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjYuODYiIGN5PSI1Ljg3IiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSI5LjI2IiBjeT0iNC40OCIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iMTIuMDAiIGN5PSIxLjQwIiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSIxNC43NCIgY3k9IjEuNzYiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjE3LjMwIiBjeT0iMi44MiIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iMTkuNTAiIGN5PSI0LjUwIiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSIyMS4xOCIgY3k9IjYuNzAiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjIyLjI0IiBjeT0iOS4yNiIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iMjIuNjAiIGN5PSIxMi4wMCIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iMjIuMjQiIGN5PSIxNC43NCIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iMjEuMTgiIGN5PSIxNy4zMCIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iMTkuNTAiIGN5PSIxOS41MCIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iMTcuMzAiIGN5PSIyMS4xOCIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iMTQuNzQiIGN5PSIyMi4yNCIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iMTIuMDAiIGN5PSIyMi42MCIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iOS4yNiIgY3k9IjIyLjI0IiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSI2LjcwIiBjeT0iMjEuMTgiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjQuNTAiIGN5PSIxOS41MCIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iMi44MiIgY3k9IjE3LjMwIiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSIxLjc2IiBjeT0iMTQuNzQiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjEuNDAiIGN5PSIxMi4wMCIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iMS43NiIgY3k9IjkuMjYiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjIuODIiIGN5PSI2LjcwIiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSI0LjUwIiBjeT0iNC41MCIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iNi43MCIgY3k9IjIuODIiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjkuMjYiIGN5PSIxLjc2IiByPSIwLjYyIi8+CiAgPC9nPgogIDxjaXJjbGUgY3g9IjEyIiBjeT0iMTIiIHI9IjIuNiIgZmlsbD0icGFyYW0oZmlsbCkgI2ZmZmZmZiIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDEuNCIvPgogIDxjaXJjbGUgY3g9IjEyIiBjeT0iMTIiIHI9IjEiIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiLz4KPC9zdmc+Cg=="/>
            <Option type="QString" name="offset" value="0,0"/>
            <Option type="QString" name="offset_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="offset_unit" value="MM"/>
            <Option type="QString" name="outline_color" value="242,242,242,255"/>
            <Option type="QString" name="outline_width" value="0.3"/>
            <Option type="QString" name="outline_width_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="outline_width_unit" value="MM"/>
            <Option name="parameters"/>
            <Option type="QString" name="scale_method" value="diameter"/>
            <Option type="QString" name="size" value="4.6"/>
            <Option type="QString" name="size_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="size_unit" value="MM"/>
            <Option type="QString" name="vertical_anchor_point" value="1"/>
          </Option>
          <prop k="angle" v="0"/>
          <prop k="color" v="30,30,30,255"/>
          <prop k="fixedAspectRatio" v="0"/>
          <prop k="horizontal_anchor_point" v="1"/>
          <prop k="name" v="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIyNCIgaGVpZ2h0PSIyNCIgdmlld0JveD0iMCAwIDI0IDI0Ij4KICA8dGl0bGU+TkRCPC90aXRsZT4KICA8ZyBmaWxsPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIj4KICAgIDxjaXJjbGUgY3g9IjEyLjAwIiBjeT0iNi42MCIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iMTQuNzAiIGN5PSI3LjMyIiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSIxNi42OCIgY3k9IjkuMzAiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjE3LjQwIiBjeT0iMTIuMDAiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjE2LjY4IiBjeT0iMTQuNzAiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjE0LjcwIiBjeT0iMTYuNjgiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjEyLjAwIiBjeT0iMTcuNDAiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjkuMzAiIGN5PSIxNi42OCIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iNy4zMiIgY3k9IjE0LjcwIiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSI2LjYwIiBjeT0iMTIuMDAiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjcuMzIiIGN5PSI5LjMwIiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSI5LjMwIiBjeT0iNy4zMiIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iMTIuMDAiIGN5PSI0LjAwIiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSIxNC43NCIgY3k9IjQuNDgiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjE3LjE0IiBjeT0iNS44NyIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iMTguOTMiIGN5PSI4LjAwIiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSIxOS44OCIgY3k9IjEwLjYxIiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSIxOS44OCIgY3k9IjEzLjM5IiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSIxOC45MyIgY3k9IjE2LjAwIiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSIxNy4xNCIgY3k9IjE4LjEzIiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSIxNC43NCIgY3k9IjE5LjUyIiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSIxMi4wMCIgY3k9IjIwLjAwIiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSI5LjI2IiBjeT0iMTkuNTIiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjYuODYiIGN5PSIxOC4xMyIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iNS4wNyIgY3k9IjE2LjAwIiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSI0LjEyIiBjeT0iMTMuMzkiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjQuMTIiIGN5PSIxMC42MSIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iNS4wNyIgY3k9IjguMDAiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjYuODYiIGN5PSI1Ljg3IiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSI5LjI2IiBjeT0iNC40OCIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iMTIuMDAiIGN5PSIxLjQwIiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSIxNC43NCIgY3k9IjEuNzYiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjE3LjMwIiBjeT0iMi44MiIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iMTkuNTAiIGN5PSI0LjUwIiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSIyMS4xOCIgY3k9IjYuNzAiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjIyLjI0IiBjeT0iOS4yNiIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iMjIuNjAiIGN5PSIxMi4wMCIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iMjIuMjQiIGN5PSIxNC43NCIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iMjEuMTgiIGN5PSIxNy4zMCIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iMTkuNTAiIGN5PSIxOS41MCIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iMTcuMzAiIGN5PSIyMS4xOCIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iMTQuNzQiIGN5PSIyMi4yNCIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iMTIuMDAiIGN5PSIyMi42MCIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iOS4yNiIgY3k9IjIyLjI0IiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSI2LjcwIiBjeT0iMjEuMTgiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjQuNTAiIGN5PSIxOS41MCIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iMi44MiIgY3k9IjE3LjMwIiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSIxLjc2IiBjeT0iMTQuNzQiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjEuNDAiIGN5PSIxMi4wMCIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iMS43NiIgY3k9IjkuMjYiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjIuODIiIGN5PSI2LjcwIiByPSIwLjYyIi8+CiAgICA8Y2lyY2xlIGN4PSI0LjUwIiBjeT0iNC41MCIgcj0iMC42MiIvPgogICAgPGNpcmNsZSBjeD0iNi43MCIgY3k9IjIuODIiIHI9IjAuNjIiLz4KICAgIDxjaXJjbGUgY3g9IjkuMjYiIGN5PSIxLjc2IiByPSIwLjYyIi8+CiAgPC9nPgogIDxjaXJjbGUgY3g9IjEyIiBjeT0iMTIiIHI9IjIuNiIgZmlsbD0icGFyYW0oZmlsbCkgI2ZmZmZmZiIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDEuNCIvPgogIDxjaXJjbGUgY3g9IjEyIiBjeT0iMTIiIHI9IjEiIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiLz4KPC9zdmc+Cg=="/>
          <prop k="offset" v="0,0"/>
          <prop k="offset_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="offset_unit" v="MM"/>
          <prop k="outline_color" v="242,242,242,255"/>
          <prop k="outline_width" v="0.3"/>
          <prop k="outline_width_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="outline_width_unit" v="MM"/>
          <prop k="parameters" v=""/>
          <prop k="scale_method" v="diameter"/>
          <prop k="size" v="4.6"/>
          <prop k="size_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="size_unit" v="MM"/>
          <prop k="vertical_anchor_point" v="1"/>
          <data_defined_properties>
            <Option type="Map">
              <Option type="QString" name="name" value=""/>
              <Option name="properties"/>
              <Option type="QString" name="type" value="collection"/>
            </Option>
          </data_defined_properties>
        </layer>
        <layer class="SimpleMarker" enabled="1" locked="0" pass="0">
          <Option type="Map">
            <Option type="QString" name="angle" value="0"/>
            <Option type="QString" name="cap_style" value="square"/>
            <Option type="QString" name="color" value="242,242,242,255"/>
            <Option type="QString" name="horizontal_anchor_point" value="1"/>
            <Option type="QString" name="joinstyle" value="bevel"/>
            <Option type="QString" name="name" value="cross2"/>
            <Option type="QString" name="offset" value="0,0"/>
            <Option type="QString" name="offset_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="offset_unit" value="MM"/>
            <Option type="QString" name="outline_color" value="242,242,242,255"/>
            <Option type="QString" name="outline_style" value="solid"/>
            <Option type="QString" name="outline_width" value="0.5"/>
            <Option type="QString" name="outline_width_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="outline_width_unit" value="MM"/>
            <Option type="QString" name="scale_method" value="diameter"/>
            <Option type="QString" name="size" value="0"/>
            <Option type="QString" name="size_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="size_unit" value="MM"/>
            <Option type="QString" name="vertical_anchor_point" value="1"/>
          </Option>
          <prop k="angle" v="0"/>
          <prop k="cap_style" v="square"/>
          <prop k="color" v="242,242,242,255"/>
          <prop k="horizontal_anchor_point" v="1"/>
          <prop k="joinstyle" v="bevel"/>
          <prop k="name" v="cross2"/>
          <prop k="offset" v="0,0"/>
          <prop k="offset_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="offset_unit" v="MM"/>
          <prop k="outline_color" v="242,242,242,255"/>
          <prop k="outline_style" v="solid"/>
          <prop k="outline_width" v="0.5"/>
          <prop k="outline_width_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="outline_width_unit" v="MM"/>
          <prop k="scale_method" v="diameter"/>
          <prop k="size" v="0"/>
          <prop k="size_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="size_unit" v="MM"/>
          <prop k="vertical_anchor_point" v="1"/>
          <data_defined_properties>
            <Option type="Map">
              <Option type="QString" name="name" value=""/>
              <Option type="Map" name="properties">
                <Option type="Map" name="size">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="expression" value="if(lower(coalesce(&quot;status&quot;, '')) IN ('out of service', 'u/s', 'unserviceable', 'decommissioned', 'shutdown'), 6, 0)"/>
                  <Option type="int" name="type" value="3"/>
                </Option>
              </Option>
              <Option type="QString" name="type" value="collection"/>
            </Option>
          </data_defined_properties>
        </layer>
      </symbol>
      <symbol type="marker" force_rhr="0" clip_to_extent="1" alpha="1" name="6">
        <data_defined_properties>
          <Option type="Map">
            <Option type="QString" name="name" value=""/>
            <Option name="properties"/>
            <Option type="QString" name="type" value="collection"/>
          </Option>
        </data_defined_properties>
        <layer class="SvgMarker" enabled="1" locked="0" pass="0">
          <Option type="Map">
            <Option type="QString" name="angle" value="0"/>
            <Option type="QString" name="color" value="30,30,30,255"/>
            <Option type="QString" name="fixedAspectRatio" value="0"/>
            <Option type="QString" name="horizontal_anchor_point" value="1"/>
            <Option type="QString" name="name" value="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoOiB0aWNrcyBlYWNoIDEwIGRlZ3JlZXMsIGZpZ3VyZXMgZWFjaCAzMDwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgogIDxnIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIGZvbnQtZmFtaWx5PSJEZWphVnUgU2Fucywgc2Fucy1zZXJpZiIgZm9udC1zaXplPSI2IiB0ZXh0LWFuY2hvcj0ibWlkZGxlIj4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMCA1MCA1MCkiPjM8L3RleHQ+CiAgICA8dGV4dCB4PSI1MCIgeT0iMTEuNiIgdHJhbnNmb3JtPSJyb3RhdGUoNjAgNTAgNTApIj42PC90ZXh0PgogICAgPHRleHQgeD0iNTAiIHk9IjExLjYiIHRyYW5zZm9ybT0icm90YXRlKDkwIDUwIDUwKSI+OTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxMjAgNTAgNTApIj4xMjwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxNTAgNTAgNTApIj4xNTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxODAgNTAgNTApIj4xODwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyMTAgNTAgNTApIj4yMTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNDAgNTAgNTApIj4yNDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNzAgNTAgNTApIj4yNzwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMDAgNTAgNTApIj4zMDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMzAgNTAgNTApIj4zMzwvdGV4dD4KICA8L2c+Cjwvc3ZnPgo="/>
            <Option type="QString" name="offset" value="0,0"/>
            <Option type="QString" name="offset_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="offset_unit" value="MM"/>
            <Option type="QString" name="outline_color" value="180,180,180,255"/>
            <Option type="QString" name="outline_width" value="0.12"/>
            <Option type="QString" name="outline_width_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="outline_width_unit" value="MM"/>
            <Option name="parameters"/>
            <Option type="QString" name="scale_method" value="diameter"/>
            <Option type="QString" name="size" value="0"/>
            <Option type="QString" name="size_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="size_unit" value="MM"/>
            <Option type="QString" name="vertical_anchor_point" value="1"/>
          </Option>
          <prop k="angle" v="0"/>
          <prop k="color" v="30,30,30,255"/>
          <prop k="fixedAspectRatio" v="0"/>
          <prop k="horizontal_anchor_point" v="1"/>
          <prop k="name" v="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoOiB0aWNrcyBlYWNoIDEwIGRlZ3JlZXMsIGZpZ3VyZXMgZWFjaCAzMDwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgogIDxnIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIGZvbnQtZmFtaWx5PSJEZWphVnUgU2Fucywgc2Fucy1zZXJpZiIgZm9udC1zaXplPSI2IiB0ZXh0LWFuY2hvcj0ibWlkZGxlIj4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMCA1MCA1MCkiPjM8L3RleHQ+CiAgICA8dGV4dCB4PSI1MCIgeT0iMTEuNiIgdHJhbnNmb3JtPSJyb3RhdGUoNjAgNTAgNTApIj42PC90ZXh0PgogICAgPHRleHQgeD0iNTAiIHk9IjExLjYiIHRyYW5zZm9ybT0icm90YXRlKDkwIDUwIDUwKSI+OTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxMjAgNTAgNTApIj4xMjwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxNTAgNTAgNTApIj4xNTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxODAgNTAgNTApIj4xODwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyMTAgNTAgNTApIj4yMTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNDAgNTAgNTApIj4yNDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNzAgNTAgNTApIj4yNzwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMDAgNTAgNTApIj4zMDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMzAgNTAgNTApIj4zMzwvdGV4dD4KICA8L2c+Cjwvc3ZnPgo="/>
          <prop k="offset" v="0,0"/>
          <prop k="offset_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="offset_unit" v="MM"/>
          <prop k="outline_color" v="180,180,180,255"/>
          <prop k="outline_width" v="0.12"/>
          <prop k="outline_width_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="outline_width_unit" v="MM"/>
          <prop k="parameters" v=""/>
          <prop k="scale_method" v="diameter"/>
          <prop k="size" v="0"/>
          <prop k="size_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="size_unit" v="MM"/>
          <prop k="vertical_anchor_point" v="1"/>
          <data_defined_properties>
            <Option type="Map">
              <Option type="QString" name="name" value=""/>
              <Option type="Map" name="properties">
                <Option type="Map" name="angle">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="field" value="decl_deg"/>
                  <Option type="int" name="type" value="2"/>
                </Option>
                <Option type="Map" name="name">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="expression" value="if((@rose_mm IS NOT NULL OR @map_scale &lt;= 300000), 'base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoOiB0aWNrcyBlYWNoIDEwIGRlZ3JlZXMsIGZpZ3VyZXMgZWFjaCAzMDwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgogIDxnIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIGZvbnQtZmFtaWx5PSJEZWphVnUgU2Fucywgc2Fucy1zZXJpZiIgZm9udC1zaXplPSI2IiB0ZXh0LWFuY2hvcj0ibWlkZGxlIj4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMCA1MCA1MCkiPjM8L3RleHQ+CiAgICA8dGV4dCB4PSI1MCIgeT0iMTEuNiIgdHJhbnNmb3JtPSJyb3RhdGUoNjAgNTAgNTApIj42PC90ZXh0PgogICAgPHRleHQgeD0iNTAiIHk9IjExLjYiIHRyYW5zZm9ybT0icm90YXRlKDkwIDUwIDUwKSI+OTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxMjAgNTAgNTApIj4xMjwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxNTAgNTAgNTApIj4xNTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxODAgNTAgNTApIj4xODwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyMTAgNTAgNTApIj4yMTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNDAgNTAgNTApIj4yNDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNzAgNTAgNTApIj4yNzwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMDAgNTAgNTApIj4zMDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMzAgNTAgNTApIj4zMzwvdGV4dD4KICA8L2c+Cjwvc3ZnPgo=', 'base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoLCB0b28gc21hbGwgZm9yIGZpZ3VyZXM6IHRpY2tzIGVhY2ggMTAgZGVncmVlczwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgo8L3N2Zz4K')"/>
                  <Option type="int" name="type" value="3"/>
                </Option>
                <Option type="Map" name="size">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="expression" value="if(&quot;kind&quot; IN ('VOR', 'VOR/DME', 'VORTAC', 'TACAN') AND &quot;decl_deg&quot; IS NOT NULL, coalesce(@rose_mm, if((@rose_mm IS NOT NULL OR @map_scale &lt;= 300000), 30, 16)), 0)"/>
                  <Option type="int" name="type" value="3"/>
                </Option>
              </Option>
              <Option type="QString" name="type" value="collection"/>
            </Option>
          </data_defined_properties>
        </layer>
        <layer class="SvgMarker" enabled="1" locked="0" pass="0">
          <Option type="Map">
            <Option type="QString" name="angle" value="0"/>
            <Option type="QString" name="color" value="30,30,30,255"/>
            <Option type="QString" name="fixedAspectRatio" value="0"/>
            <Option type="QString" name="horizontal_anchor_point" value="1"/>
            <Option type="QString" name="name" value="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIyNCIgaGVpZ2h0PSIyNCIgdmlld0JveD0iMCAwIDI0IDI0Ij4KICA8dGl0bGU+TkRCL0RNRTwvdGl0bGU+CiAgPHJlY3QgeD0iMiIgeT0iMiIgd2lkdGg9IjIwIiBoZWlnaHQ9IjIwIiBmaWxsPSJwYXJhbShmaWxsKSAjZmZmZmZmIiBzdHJva2U9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIHN0cm9rZS13aWR0aD0icGFyYW0ob3V0bGluZS13aWR0aCkgMS40Ii8+CiAgPGcgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCI+CiAgICA8Y2lyY2xlIGN4PSIxMi4wMCIgY3k9IjcuMTAiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjE0LjY1IiBjeT0iNy44OCIgcj0iMC41OCIvPgogICAgPGNpcmNsZSBjeD0iMTYuNDYiIGN5PSI5Ljk2IiByPSIwLjU4Ii8+CiAgICA8Y2lyY2xlIGN4PSIxNi44NSIgY3k9IjEyLjcwIiByPSIwLjU4Ii8+CiAgICA8Y2lyY2xlIGN4PSIxNS43MCIgY3k9IjE1LjIxIiByPSIwLjU4Ii8+CiAgICA8Y2lyY2xlIGN4PSIxMy4zOCIgY3k9IjE2LjcwIiByPSIwLjU4Ii8+CiAgICA8Y2lyY2xlIGN4PSIxMC42MiIgY3k9IjE2LjcwIiByPSIwLjU4Ii8+CiAgICA8Y2lyY2xlIGN4PSI4LjMwIiBjeT0iMTUuMjEiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjcuMTUiIGN5PSIxMi43MCIgcj0iMC41OCIvPgogICAgPGNpcmNsZSBjeD0iNy41NCIgY3k9IjkuOTYiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjkuMzUiIGN5PSI3Ljg4IiByPSIwLjU4Ii8+CiAgICA8Y2lyY2xlIGN4PSIxMi4wMCIgY3k9IjUuMDAiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjE0LjY4IiBjeT0iNS41MyIgcj0iMC41OCIvPgogICAgPGNpcmNsZSBjeD0iMTYuOTUiIGN5PSI3LjA1IiByPSIwLjU4Ii8+CiAgICA8Y2lyY2xlIGN4PSIxOC40NyIgY3k9IjkuMzIiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjE5LjAwIiBjeT0iMTIuMDAiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjE4LjQ3IiBjeT0iMTQuNjgiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjE2Ljk1IiBjeT0iMTYuOTUiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjE0LjY4IiBjeT0iMTguNDciIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjEyLjAwIiBjeT0iMTkuMDAiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjkuMzIiIGN5PSIxOC40NyIgcj0iMC41OCIvPgogICAgPGNpcmNsZSBjeD0iNy4wNSIgY3k9IjE2Ljk1IiByPSIwLjU4Ii8+CiAgICA8Y2lyY2xlIGN4PSI1LjUzIiBjeT0iMTQuNjgiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjUuMDAiIGN5PSIxMi4wMCIgcj0iMC41OCIvPgogICAgPGNpcmNsZSBjeD0iNS41MyIgY3k9IjkuMzIiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjcuMDUiIGN5PSI3LjA1IiByPSIwLjU4Ii8+CiAgICA8Y2lyY2xlIGN4PSI5LjMyIiBjeT0iNS41MyIgcj0iMC41OCIvPgogICAgPGNpcmNsZSBjeD0iMTIuMDAiIGN5PSIzLjAwIiByPSIwLjU4Ii8+CiAgICA8Y2lyY2xlIGN4PSIxNC43OCIgY3k9IjMuNDQiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjE3LjI5IiBjeT0iNC43MiIgcj0iMC41OCIvPgogICAgPGNpcmNsZSBjeD0iMTkuMjgiIGN5PSI2LjcxIiByPSIwLjU4Ii8+CiAgICA8Y2lyY2xlIGN4PSIyMC41NiIgY3k9IjkuMjIiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjIxLjAwIiBjeT0iMTIuMDAiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjIwLjU2IiBjeT0iMTQuNzgiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjE5LjI4IiBjeT0iMTcuMjkiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjE3LjI5IiBjeT0iMTkuMjgiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjE0Ljc4IiBjeT0iMjAuNTYiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjEyLjAwIiBjeT0iMjEuMDAiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjkuMjIiIGN5PSIyMC41NiIgcj0iMC41OCIvPgogICAgPGNpcmNsZSBjeD0iNi43MSIgY3k9IjE5LjI4IiByPSIwLjU4Ii8+CiAgICA8Y2lyY2xlIGN4PSI0LjcyIiBjeT0iMTcuMjkiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjMuNDQiIGN5PSIxNC43OCIgcj0iMC41OCIvPgogICAgPGNpcmNsZSBjeD0iMy4wMCIgY3k9IjEyLjAwIiByPSIwLjU4Ii8+CiAgICA8Y2lyY2xlIGN4PSIzLjQ0IiBjeT0iOS4yMiIgcj0iMC41OCIvPgogICAgPGNpcmNsZSBjeD0iNC43MiIgY3k9IjYuNzEiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjYuNzEiIGN5PSI0LjcyIiByPSIwLjU4Ii8+CiAgICA8Y2lyY2xlIGN4PSI5LjIyIiBjeT0iMy40NCIgcj0iMC41OCIvPgogIDwvZz4KICA8Y2lyY2xlIGN4PSIxMiIgY3k9IjEyIiByPSIyLjMiIGZpbGw9InBhcmFtKGZpbGwpICNmZmZmZmYiIHN0cm9rZT0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIgc3Ryb2tlLXdpZHRoPSJwYXJhbShvdXRsaW5lLXdpZHRoKSAxLjQiLz4KICA8Y2lyY2xlIGN4PSIxMiIgY3k9IjEyIiByPSIxIiBmaWxsPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIi8+Cjwvc3ZnPgo="/>
            <Option type="QString" name="offset" value="0,0"/>
            <Option type="QString" name="offset_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="offset_unit" value="MM"/>
            <Option type="QString" name="outline_color" value="242,242,242,255"/>
            <Option type="QString" name="outline_width" value="0.3"/>
            <Option type="QString" name="outline_width_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="outline_width_unit" value="MM"/>
            <Option name="parameters"/>
            <Option type="QString" name="scale_method" value="diameter"/>
            <Option type="QString" name="size" value="4.6"/>
            <Option type="QString" name="size_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="size_unit" value="MM"/>
            <Option type="QString" name="vertical_anchor_point" value="1"/>
          </Option>
          <prop k="angle" v="0"/>
          <prop k="color" v="30,30,30,255"/>
          <prop k="fixedAspectRatio" v="0"/>
          <prop k="horizontal_anchor_point" v="1"/>
          <prop k="name" v="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIyNCIgaGVpZ2h0PSIyNCIgdmlld0JveD0iMCAwIDI0IDI0Ij4KICA8dGl0bGU+TkRCL0RNRTwvdGl0bGU+CiAgPHJlY3QgeD0iMiIgeT0iMiIgd2lkdGg9IjIwIiBoZWlnaHQ9IjIwIiBmaWxsPSJwYXJhbShmaWxsKSAjZmZmZmZmIiBzdHJva2U9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIHN0cm9rZS13aWR0aD0icGFyYW0ob3V0bGluZS13aWR0aCkgMS40Ii8+CiAgPGcgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCI+CiAgICA8Y2lyY2xlIGN4PSIxMi4wMCIgY3k9IjcuMTAiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjE0LjY1IiBjeT0iNy44OCIgcj0iMC41OCIvPgogICAgPGNpcmNsZSBjeD0iMTYuNDYiIGN5PSI5Ljk2IiByPSIwLjU4Ii8+CiAgICA8Y2lyY2xlIGN4PSIxNi44NSIgY3k9IjEyLjcwIiByPSIwLjU4Ii8+CiAgICA8Y2lyY2xlIGN4PSIxNS43MCIgY3k9IjE1LjIxIiByPSIwLjU4Ii8+CiAgICA8Y2lyY2xlIGN4PSIxMy4zOCIgY3k9IjE2LjcwIiByPSIwLjU4Ii8+CiAgICA8Y2lyY2xlIGN4PSIxMC42MiIgY3k9IjE2LjcwIiByPSIwLjU4Ii8+CiAgICA8Y2lyY2xlIGN4PSI4LjMwIiBjeT0iMTUuMjEiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjcuMTUiIGN5PSIxMi43MCIgcj0iMC41OCIvPgogICAgPGNpcmNsZSBjeD0iNy41NCIgY3k9IjkuOTYiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjkuMzUiIGN5PSI3Ljg4IiByPSIwLjU4Ii8+CiAgICA8Y2lyY2xlIGN4PSIxMi4wMCIgY3k9IjUuMDAiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjE0LjY4IiBjeT0iNS41MyIgcj0iMC41OCIvPgogICAgPGNpcmNsZSBjeD0iMTYuOTUiIGN5PSI3LjA1IiByPSIwLjU4Ii8+CiAgICA8Y2lyY2xlIGN4PSIxOC40NyIgY3k9IjkuMzIiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjE5LjAwIiBjeT0iMTIuMDAiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjE4LjQ3IiBjeT0iMTQuNjgiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjE2Ljk1IiBjeT0iMTYuOTUiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjE0LjY4IiBjeT0iMTguNDciIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjEyLjAwIiBjeT0iMTkuMDAiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjkuMzIiIGN5PSIxOC40NyIgcj0iMC41OCIvPgogICAgPGNpcmNsZSBjeD0iNy4wNSIgY3k9IjE2Ljk1IiByPSIwLjU4Ii8+CiAgICA8Y2lyY2xlIGN4PSI1LjUzIiBjeT0iMTQuNjgiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjUuMDAiIGN5PSIxMi4wMCIgcj0iMC41OCIvPgogICAgPGNpcmNsZSBjeD0iNS41MyIgY3k9IjkuMzIiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjcuMDUiIGN5PSI3LjA1IiByPSIwLjU4Ii8+CiAgICA8Y2lyY2xlIGN4PSI5LjMyIiBjeT0iNS41MyIgcj0iMC41OCIvPgogICAgPGNpcmNsZSBjeD0iMTIuMDAiIGN5PSIzLjAwIiByPSIwLjU4Ii8+CiAgICA8Y2lyY2xlIGN4PSIxNC43OCIgY3k9IjMuNDQiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjE3LjI5IiBjeT0iNC43MiIgcj0iMC41OCIvPgogICAgPGNpcmNsZSBjeD0iMTkuMjgiIGN5PSI2LjcxIiByPSIwLjU4Ii8+CiAgICA8Y2lyY2xlIGN4PSIyMC41NiIgY3k9IjkuMjIiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjIxLjAwIiBjeT0iMTIuMDAiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjIwLjU2IiBjeT0iMTQuNzgiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjE5LjI4IiBjeT0iMTcuMjkiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjE3LjI5IiBjeT0iMTkuMjgiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjE0Ljc4IiBjeT0iMjAuNTYiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjEyLjAwIiBjeT0iMjEuMDAiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjkuMjIiIGN5PSIyMC41NiIgcj0iMC41OCIvPgogICAgPGNpcmNsZSBjeD0iNi43MSIgY3k9IjE5LjI4IiByPSIwLjU4Ii8+CiAgICA8Y2lyY2xlIGN4PSI0LjcyIiBjeT0iMTcuMjkiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjMuNDQiIGN5PSIxNC43OCIgcj0iMC41OCIvPgogICAgPGNpcmNsZSBjeD0iMy4wMCIgY3k9IjEyLjAwIiByPSIwLjU4Ii8+CiAgICA8Y2lyY2xlIGN4PSIzLjQ0IiBjeT0iOS4yMiIgcj0iMC41OCIvPgogICAgPGNpcmNsZSBjeD0iNC43MiIgY3k9IjYuNzEiIHI9IjAuNTgiLz4KICAgIDxjaXJjbGUgY3g9IjYuNzEiIGN5PSI0LjcyIiByPSIwLjU4Ii8+CiAgICA8Y2lyY2xlIGN4PSI5LjIyIiBjeT0iMy40NCIgcj0iMC41OCIvPgogIDwvZz4KICA8Y2lyY2xlIGN4PSIxMiIgY3k9IjEyIiByPSIyLjMiIGZpbGw9InBhcmFtKGZpbGwpICNmZmZmZmYiIHN0cm9rZT0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIgc3Ryb2tlLXdpZHRoPSJwYXJhbShvdXRsaW5lLXdpZHRoKSAxLjQiLz4KICA8Y2lyY2xlIGN4PSIxMiIgY3k9IjEyIiByPSIxIiBmaWxsPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIi8+Cjwvc3ZnPgo="/>
          <prop k="offset" v="0,0"/>
          <prop k="offset_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="offset_unit" v="MM"/>
          <prop k="outline_color" v="242,242,242,255"/>
          <prop k="outline_width" v="0.3"/>
          <prop k="outline_width_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="outline_width_unit" v="MM"/>
          <prop k="parameters" v=""/>
          <prop k="scale_method" v="diameter"/>
          <prop k="size" v="4.6"/>
          <prop k="size_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="size_unit" v="MM"/>
          <prop k="vertical_anchor_point" v="1"/>
          <data_defined_properties>
            <Option type="Map">
              <Option type="QString" name="name" value=""/>
              <Option name="properties"/>
              <Option type="QString" name="type" value="collection"/>
            </Option>
          </data_defined_properties>
        </layer>
        <layer class="SimpleMarker" enabled="1" locked="0" pass="0">
          <Option type="Map">
            <Option type="QString" name="angle" value="0"/>
            <Option type="QString" name="cap_style" value="square"/>
            <Option type="QString" name="color" value="242,242,242,255"/>
            <Option type="QString" name="horizontal_anchor_point" value="1"/>
            <Option type="QString" name="joinstyle" value="bevel"/>
            <Option type="QString" name="name" value="cross2"/>
            <Option type="QString" name="offset" value="0,0"/>
            <Option type="QString" name="offset_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="offset_unit" value="MM"/>
            <Option type="QString" name="outline_color" value="242,242,242,255"/>
            <Option type="QString" name="outline_style" value="solid"/>
            <Option type="QString" name="outline_width" value="0.5"/>
            <Option type="QString" name="outline_width_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="outline_width_unit" value="MM"/>
            <Option type="QString" name="scale_method" value="diameter"/>
            <Option type="QString" name="size" value="0"/>
            <Option type="QString" name="size_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="size_unit" value="MM"/>
            <Option type="QString" name="vertical_anchor_point" value="1"/>
          </Option>
          <prop k="angle" v="0"/>
          <prop k="cap_style" v="square"/>
          <prop k="color" v="242,242,242,255"/>
          <prop k="horizontal_anchor_point" v="1"/>
          <prop k="joinstyle" v="bevel"/>
          <prop k="name" v="cross2"/>
          <prop k="offset" v="0,0"/>
          <prop k="offset_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="offset_unit" v="MM"/>
          <prop k="outline_color" v="242,242,242,255"/>
          <prop k="outline_style" v="solid"/>
          <prop k="outline_width" v="0.5"/>
          <prop k="outline_width_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="outline_width_unit" v="MM"/>
          <prop k="scale_method" v="diameter"/>
          <prop k="size" v="0"/>
          <prop k="size_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="size_unit" v="MM"/>
          <prop k="vertical_anchor_point" v="1"/>
          <data_defined_properties>
            <Option type="Map">
              <Option type="QString" name="name" value=""/>
              <Option type="Map" name="properties">
                <Option type="Map" name="size">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="expression" value="if(lower(coalesce(&quot;status&quot;, '')) IN ('out of service', 'u/s', 'unserviceable', 'decommissioned', 'shutdown'), 6, 0)"/>
                  <Option type="int" name="type" value="3"/>
                </Option>
              </Option>
              <Option type="QString" name="type" value="collection"/>
            </Option>
          </data_defined_properties>
        </layer>
      </symbol>
      <symbol type="marker" force_rhr="0" clip_to_extent="1" alpha="1" name="7">
        <data_defined_properties>
          <Option type="Map">
            <Option type="QString" name="name" value=""/>
            <Option name="properties"/>
            <Option type="QString" name="type" value="collection"/>
          </Option>
        </data_defined_properties>
        <layer class="SvgMarker" enabled="1" locked="0" pass="0">
          <Option type="Map">
            <Option type="QString" name="angle" value="0"/>
            <Option type="QString" name="color" value="30,30,30,255"/>
            <Option type="QString" name="fixedAspectRatio" value="0"/>
            <Option type="QString" name="horizontal_anchor_point" value="1"/>
            <Option type="QString" name="name" value="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoOiB0aWNrcyBlYWNoIDEwIGRlZ3JlZXMsIGZpZ3VyZXMgZWFjaCAzMDwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgogIDxnIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIGZvbnQtZmFtaWx5PSJEZWphVnUgU2Fucywgc2Fucy1zZXJpZiIgZm9udC1zaXplPSI2IiB0ZXh0LWFuY2hvcj0ibWlkZGxlIj4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMCA1MCA1MCkiPjM8L3RleHQ+CiAgICA8dGV4dCB4PSI1MCIgeT0iMTEuNiIgdHJhbnNmb3JtPSJyb3RhdGUoNjAgNTAgNTApIj42PC90ZXh0PgogICAgPHRleHQgeD0iNTAiIHk9IjExLjYiIHRyYW5zZm9ybT0icm90YXRlKDkwIDUwIDUwKSI+OTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxMjAgNTAgNTApIj4xMjwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxNTAgNTAgNTApIj4xNTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxODAgNTAgNTApIj4xODwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyMTAgNTAgNTApIj4yMTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNDAgNTAgNTApIj4yNDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNzAgNTAgNTApIj4yNzwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMDAgNTAgNTApIj4zMDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMzAgNTAgNTApIj4zMzwvdGV4dD4KICA8L2c+Cjwvc3ZnPgo="/>
            <Option type="QString" name="offset" value="0,0"/>
            <Option type="QString" name="offset_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="offset_unit" value="MM"/>
            <Option type="QString" name="outline_color" value="180,180,180,255"/>
            <Option type="QString" name="outline_width" value="0.12"/>
            <Option type="QString" name="outline_width_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="outline_width_unit" value="MM"/>
            <Option name="parameters"/>
            <Option type="QString" name="scale_method" value="diameter"/>
            <Option type="QString" name="size" value="0"/>
            <Option type="QString" name="size_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="size_unit" value="MM"/>
            <Option type="QString" name="vertical_anchor_point" value="1"/>
          </Option>
          <prop k="angle" v="0"/>
          <prop k="color" v="30,30,30,255"/>
          <prop k="fixedAspectRatio" v="0"/>
          <prop k="horizontal_anchor_point" v="1"/>
          <prop k="name" v="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoOiB0aWNrcyBlYWNoIDEwIGRlZ3JlZXMsIGZpZ3VyZXMgZWFjaCAzMDwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgogIDxnIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIGZvbnQtZmFtaWx5PSJEZWphVnUgU2Fucywgc2Fucy1zZXJpZiIgZm9udC1zaXplPSI2IiB0ZXh0LWFuY2hvcj0ibWlkZGxlIj4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMCA1MCA1MCkiPjM8L3RleHQ+CiAgICA8dGV4dCB4PSI1MCIgeT0iMTEuNiIgdHJhbnNmb3JtPSJyb3RhdGUoNjAgNTAgNTApIj42PC90ZXh0PgogICAgPHRleHQgeD0iNTAiIHk9IjExLjYiIHRyYW5zZm9ybT0icm90YXRlKDkwIDUwIDUwKSI+OTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxMjAgNTAgNTApIj4xMjwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxNTAgNTAgNTApIj4xNTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxODAgNTAgNTApIj4xODwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyMTAgNTAgNTApIj4yMTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNDAgNTAgNTApIj4yNDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNzAgNTAgNTApIj4yNzwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMDAgNTAgNTApIj4zMDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMzAgNTAgNTApIj4zMzwvdGV4dD4KICA8L2c+Cjwvc3ZnPgo="/>
          <prop k="offset" v="0,0"/>
          <prop k="offset_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="offset_unit" v="MM"/>
          <prop k="outline_color" v="180,180,180,255"/>
          <prop k="outline_width" v="0.12"/>
          <prop k="outline_width_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="outline_width_unit" v="MM"/>
          <prop k="parameters" v=""/>
          <prop k="scale_method" v="diameter"/>
          <prop k="size" v="0"/>
          <prop k="size_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="size_unit" v="MM"/>
          <prop k="vertical_anchor_point" v="1"/>
          <data_defined_properties>
            <Option type="Map">
              <Option type="QString" name="name" value=""/>
              <Option type="Map" name="properties">
                <Option type="Map" name="angle">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="field" value="decl_deg"/>
                  <Option type="int" name="type" value="2"/>
                </Option>
                <Option type="Map" name="name">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="expression" value="if((@rose_mm IS NOT NULL OR @map_scale &lt;= 300000), 'base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoOiB0aWNrcyBlYWNoIDEwIGRlZ3JlZXMsIGZpZ3VyZXMgZWFjaCAzMDwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgogIDxnIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIGZvbnQtZmFtaWx5PSJEZWphVnUgU2Fucywgc2Fucy1zZXJpZiIgZm9udC1zaXplPSI2IiB0ZXh0LWFuY2hvcj0ibWlkZGxlIj4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMCA1MCA1MCkiPjM8L3RleHQ+CiAgICA8dGV4dCB4PSI1MCIgeT0iMTEuNiIgdHJhbnNmb3JtPSJyb3RhdGUoNjAgNTAgNTApIj42PC90ZXh0PgogICAgPHRleHQgeD0iNTAiIHk9IjExLjYiIHRyYW5zZm9ybT0icm90YXRlKDkwIDUwIDUwKSI+OTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxMjAgNTAgNTApIj4xMjwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxNTAgNTAgNTApIj4xNTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxODAgNTAgNTApIj4xODwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyMTAgNTAgNTApIj4yMTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNDAgNTAgNTApIj4yNDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNzAgNTAgNTApIj4yNzwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMDAgNTAgNTApIj4zMDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMzAgNTAgNTApIj4zMzwvdGV4dD4KICA8L2c+Cjwvc3ZnPgo=', 'base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoLCB0b28gc21hbGwgZm9yIGZpZ3VyZXM6IHRpY2tzIGVhY2ggMTAgZGVncmVlczwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgo8L3N2Zz4K')"/>
                  <Option type="int" name="type" value="3"/>
                </Option>
                <Option type="Map" name="size">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="expression" value="if(&quot;kind&quot; IN ('VOR', 'VOR/DME', 'VORTAC', 'TACAN') AND &quot;decl_deg&quot; IS NOT NULL, coalesce(@rose_mm, if((@rose_mm IS NOT NULL OR @map_scale &lt;= 300000), 30, 16)), 0)"/>
                  <Option type="int" name="type" value="3"/>
                </Option>
              </Option>
              <Option type="QString" name="type" value="collection"/>
            </Option>
          </data_defined_properties>
        </layer>
        <layer class="SvgMarker" enabled="1" locked="0" pass="0">
          <Option type="Map">
            <Option type="QString" name="angle" value="0"/>
            <Option type="QString" name="color" value="30,30,30,255"/>
            <Option type="QString" name="fixedAspectRatio" value="0"/>
            <Option type="QString" name="horizontal_anchor_point" value="1"/>
            <Option type="QString" name="name" value="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIyNCIgaGVpZ2h0PSIyNCIgdmlld0JveD0iMCAwIDI0IDI0Ij4KICA8dGl0bGU+V2F5cG9pbnQ8L3RpdGxlPgogIDxwYXRoIGQ9Ik0xMiAxIFExMy4yIDEwLjggMjMgMTIgUTEzLjIgMTMuMiAxMiAyMyBRMTAuOCAxMy4yIDEgMTIgUTEwLjggMTAuOCAxMiAxIFoiIGZpbGw9InBhcmFtKGZpbGwpICNmZmZmZmYiIHN0cm9rZT0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIgc3Ryb2tlLXdpZHRoPSJwYXJhbShvdXRsaW5lLXdpZHRoKSAxLjQiIHN0cm9rZS1saW5lam9pbj0ibWl0ZXIiLz4KPC9zdmc+Cg=="/>
            <Option type="QString" name="offset" value="0,0"/>
            <Option type="QString" name="offset_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="offset_unit" value="MM"/>
            <Option type="QString" name="outline_color" value="242,242,242,255"/>
            <Option type="QString" name="outline_width" value="0.3"/>
            <Option type="QString" name="outline_width_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="outline_width_unit" value="MM"/>
            <Option name="parameters"/>
            <Option type="QString" name="scale_method" value="diameter"/>
            <Option type="QString" name="size" value="4.6"/>
            <Option type="QString" name="size_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="size_unit" value="MM"/>
            <Option type="QString" name="vertical_anchor_point" value="1"/>
          </Option>
          <prop k="angle" v="0"/>
          <prop k="color" v="30,30,30,255"/>
          <prop k="fixedAspectRatio" v="0"/>
          <prop k="horizontal_anchor_point" v="1"/>
          <prop k="name" v="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIyNCIgaGVpZ2h0PSIyNCIgdmlld0JveD0iMCAwIDI0IDI0Ij4KICA8dGl0bGU+V2F5cG9pbnQ8L3RpdGxlPgogIDxwYXRoIGQ9Ik0xMiAxIFExMy4yIDEwLjggMjMgMTIgUTEzLjIgMTMuMiAxMiAyMyBRMTAuOCAxMy4yIDEgMTIgUTEwLjggMTAuOCAxMiAxIFoiIGZpbGw9InBhcmFtKGZpbGwpICNmZmZmZmYiIHN0cm9rZT0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIgc3Ryb2tlLXdpZHRoPSJwYXJhbShvdXRsaW5lLXdpZHRoKSAxLjQiIHN0cm9rZS1saW5lam9pbj0ibWl0ZXIiLz4KPC9zdmc+Cg=="/>
          <prop k="offset" v="0,0"/>
          <prop k="offset_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="offset_unit" v="MM"/>
          <prop k="outline_color" v="242,242,242,255"/>
          <prop k="outline_width" v="0.3"/>
          <prop k="outline_width_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="outline_width_unit" v="MM"/>
          <prop k="parameters" v=""/>
          <prop k="scale_method" v="diameter"/>
          <prop k="size" v="4.6"/>
          <prop k="size_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="size_unit" v="MM"/>
          <prop k="vertical_anchor_point" v="1"/>
          <data_defined_properties>
            <Option type="Map">
              <Option type="QString" name="name" value=""/>
              <Option name="properties"/>
              <Option type="QString" name="type" value="collection"/>
            </Option>
          </data_defined_properties>
        </layer>
        <layer class="SimpleMarker" enabled="1" locked="0" pass="0">
          <Option type="Map">
            <Option type="QString" name="angle" value="0"/>
            <Option type="QString" name="cap_style" value="square"/>
            <Option type="QString" name="color" value="242,242,242,255"/>
            <Option type="QString" name="horizontal_anchor_point" value="1"/>
            <Option type="QString" name="joinstyle" value="bevel"/>
            <Option type="QString" name="name" value="cross2"/>
            <Option type="QString" name="offset" value="0,0"/>
            <Option type="QString" name="offset_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="offset_unit" value="MM"/>
            <Option type="QString" name="outline_color" value="242,242,242,255"/>
            <Option type="QString" name="outline_style" value="solid"/>
            <Option type="QString" name="outline_width" value="0.5"/>
            <Option type="QString" name="outline_width_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="outline_width_unit" value="MM"/>
            <Option type="QString" name="scale_method" value="diameter"/>
            <Option type="QString" name="size" value="0"/>
            <Option type="QString" name="size_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="size_unit" value="MM"/>
            <Option type="QString" name="vertical_anchor_point" value="1"/>
          </Option>
          <prop k="angle" v="0"/>
          <prop k="cap_style" v="square"/>
          <prop k="color" v="242,242,242,255"/>
          <prop k="horizontal_anchor_point" v="1"/>
          <prop k="joinstyle" v="bevel"/>
          <prop k="name" v="cross2"/>
          <prop k="offset" v="0,0"/>
          <prop k="offset_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="offset_unit" v="MM"/>
          <prop k="outline_color" v="242,242,242,255"/>
          <prop k="outline_style" v="solid"/>
          <prop k="outline_width" v="0.5"/>
          <prop k="outline_width_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="outline_width_unit" v="MM"/>
          <prop k="scale_method" v="diameter"/>
          <prop k="size" v="0"/>
          <prop k="size_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="size_unit" v="MM"/>
          <prop k="vertical_anchor_point" v="1"/>
          <data_defined_properties>
            <Option type="Map">
              <Option type="QString" name="name" value=""/>
              <Option type="Map" name="properties">
                <Option type="Map" name="size">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="expression" value="if(lower(coalesce(&quot;status&quot;, '')) IN ('out of service', 'u/s', 'unserviceable', 'decommissioned', 'shutdown'), 6, 0)"/>
                  <Option type="int" name="type" value="3"/>
                </Option>
              </Option>
              <Option type="QString" name="type" value="collection"/>
            </Option>
          </data_defined_properties>
        </layer>
      </symbol>
      <symbol type="marker" force_rhr="0" clip_to_extent="1" alpha="1" name="8">
        <data_defined_properties>
          <Option type="Map">
            <Option type="QString" name="name" value=""/>
            <Option name="properties"/>
            <Option type="QString" name="type" value="collection"/>
          </Option>
        </data_defined_properties>
        <layer class="SvgMarker" enabled="1" locked="0" pass="0">
          <Option type="Map">
            <Option type="QString" name="angle" value="0"/>
            <Option type="QString" name="color" value="30,30,30,255"/>
            <Option type="QString" name="fixedAspectRatio" value="0"/>
            <Option type="QString" name="horizontal_anchor_point" value="1"/>
            <Option type="QString" name="name" value="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoOiB0aWNrcyBlYWNoIDEwIGRlZ3JlZXMsIGZpZ3VyZXMgZWFjaCAzMDwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgogIDxnIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIGZvbnQtZmFtaWx5PSJEZWphVnUgU2Fucywgc2Fucy1zZXJpZiIgZm9udC1zaXplPSI2IiB0ZXh0LWFuY2hvcj0ibWlkZGxlIj4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMCA1MCA1MCkiPjM8L3RleHQ+CiAgICA8dGV4dCB4PSI1MCIgeT0iMTEuNiIgdHJhbnNmb3JtPSJyb3RhdGUoNjAgNTAgNTApIj42PC90ZXh0PgogICAgPHRleHQgeD0iNTAiIHk9IjExLjYiIHRyYW5zZm9ybT0icm90YXRlKDkwIDUwIDUwKSI+OTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxMjAgNTAgNTApIj4xMjwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxNTAgNTAgNTApIj4xNTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxODAgNTAgNTApIj4xODwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyMTAgNTAgNTApIj4yMTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNDAgNTAgNTApIj4yNDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNzAgNTAgNTApIj4yNzwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMDAgNTAgNTApIj4zMDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMzAgNTAgNTApIj4zMzwvdGV4dD4KICA8L2c+Cjwvc3ZnPgo="/>
            <Option type="QString" name="offset" value="0,0"/>
            <Option type="QString" name="offset_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="offset_unit" value="MM"/>
            <Option type="QString" name="outline_color" value="180,180,180,255"/>
            <Option type="QString" name="outline_width" value="0.12"/>
            <Option type="QString" name="outline_width_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="outline_width_unit" value="MM"/>
            <Option name="parameters"/>
            <Option type="QString" name="scale_method" value="diameter"/>
            <Option type="QString" name="size" value="0"/>
            <Option type="QString" name="size_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="size_unit" value="MM"/>
            <Option type="QString" name="vertical_anchor_point" value="1"/>
          </Option>
          <prop k="angle" v="0"/>
          <prop k="color" v="30,30,30,255"/>
          <prop k="fixedAspectRatio" v="0"/>
          <prop k="horizontal_anchor_point" v="1"/>
          <prop k="name" v="base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoOiB0aWNrcyBlYWNoIDEwIGRlZ3JlZXMsIGZpZ3VyZXMgZWFjaCAzMDwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgogIDxnIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIGZvbnQtZmFtaWx5PSJEZWphVnUgU2Fucywgc2Fucy1zZXJpZiIgZm9udC1zaXplPSI2IiB0ZXh0LWFuY2hvcj0ibWlkZGxlIj4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMCA1MCA1MCkiPjM8L3RleHQ+CiAgICA8dGV4dCB4PSI1MCIgeT0iMTEuNiIgdHJhbnNmb3JtPSJyb3RhdGUoNjAgNTAgNTApIj42PC90ZXh0PgogICAgPHRleHQgeD0iNTAiIHk9IjExLjYiIHRyYW5zZm9ybT0icm90YXRlKDkwIDUwIDUwKSI+OTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxMjAgNTAgNTApIj4xMjwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxNTAgNTAgNTApIj4xNTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxODAgNTAgNTApIj4xODwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyMTAgNTAgNTApIj4yMTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNDAgNTAgNTApIj4yNDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNzAgNTAgNTApIj4yNzwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMDAgNTAgNTApIj4zMDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMzAgNTAgNTApIj4zMzwvdGV4dD4KICA8L2c+Cjwvc3ZnPgo="/>
          <prop k="offset" v="0,0"/>
          <prop k="offset_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="offset_unit" v="MM"/>
          <prop k="outline_color" v="180,180,180,255"/>
          <prop k="outline_width" v="0.12"/>
          <prop k="outline_width_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="outline_width_unit" v="MM"/>
          <prop k="parameters" v=""/>
          <prop k="scale_method" v="diameter"/>
          <prop k="size" v="0"/>
          <prop k="size_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="size_unit" v="MM"/>
          <prop k="vertical_anchor_point" v="1"/>
          <data_defined_properties>
            <Option type="Map">
              <Option type="QString" name="name" value=""/>
              <Option type="Map" name="properties">
                <Option type="Map" name="angle">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="field" value="decl_deg"/>
                  <Option type="int" name="type" value="2"/>
                </Option>
                <Option type="Map" name="name">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="expression" value="if((@rose_mm IS NOT NULL OR @map_scale &lt;= 300000), 'base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoOiB0aWNrcyBlYWNoIDEwIGRlZ3JlZXMsIGZpZ3VyZXMgZWFjaCAzMDwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgogIDxnIGZpbGw9InBhcmFtKG91dGxpbmUpICMwMDAwMDAiIGZvbnQtZmFtaWx5PSJEZWphVnUgU2Fucywgc2Fucy1zZXJpZiIgZm9udC1zaXplPSI2IiB0ZXh0LWFuY2hvcj0ibWlkZGxlIj4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMCA1MCA1MCkiPjM8L3RleHQ+CiAgICA8dGV4dCB4PSI1MCIgeT0iMTEuNiIgdHJhbnNmb3JtPSJyb3RhdGUoNjAgNTAgNTApIj42PC90ZXh0PgogICAgPHRleHQgeD0iNTAiIHk9IjExLjYiIHRyYW5zZm9ybT0icm90YXRlKDkwIDUwIDUwKSI+OTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxMjAgNTAgNTApIj4xMjwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxNTAgNTAgNTApIj4xNTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgxODAgNTAgNTApIj4xODwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyMTAgNTAgNTApIj4yMTwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNDAgNTAgNTApIj4yNDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgyNzAgNTAgNTApIj4yNzwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMDAgNTAgNTApIj4zMDwvdGV4dD4KICAgIDx0ZXh0IHg9IjUwIiB5PSIxMS42IiB0cmFuc2Zvcm09InJvdGF0ZSgzMzAgNTAgNTApIj4zMzwvdGV4dD4KICA8L2c+Cjwvc3ZnPgo=', 'base64:PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSIxMDAiIGhlaWdodD0iMTAwIiB2aWV3Qm94PSIwIDAgMTAwIDEwMCI+CiAgPHRpdGxlPlJvc2Ugb24gYSBzdGF0aW9uJ3Mgb3duIG5vcnRoLCB0b28gc21hbGwgZm9yIGZpZ3VyZXM6IHRpY2tzIGVhY2ggMTAgZGVncmVlczwvdGl0bGU+CiAgPGcgZmlsbD0ibm9uZSIgc3Ryb2tlPSJwYXJhbShvdXRsaW5lKSAjMDAwMDAwIiBzdHJva2Utd2lkdGg9InBhcmFtKG91dGxpbmUtd2lkdGgpIDAuNiI+CiAgICA8Y2lyY2xlIGN4PSI1MCIgY3k9IjUwIiByPSI0OCIvPgogICAgPHBhdGggZD0iTTUwLjAwIDIuMDAgTDUwLjAwIDUuNjAgTTU4LjM0IDIuNzMgTDU3Ljk5IDQuNzAgTTY2LjQyIDQuODkgTDY1LjczIDYuNzcgTTc0LjAwIDguNDMgTDcyLjIwIDExLjU1IE04MC44NSAxMy4yMyBMNzkuNTcgMTQuNzYgTTg2Ljc3IDE5LjE1IEw4NS4yNCAyMC40MyBNOTEuNTcgMjYuMDAgTDg4LjQ1IDI3LjgwIE05NS4xMSAzMy41OCBMOTMuMjMgMzQuMjcgTTk3LjI3IDQxLjY2IEw5NS4zMCA0Mi4wMSBNOTguMDAgNTAuMDAgTDk0LjQwIDUwLjAwIE05Ny4yNyA1OC4zNCBMOTUuMzAgNTcuOTkgTTk1LjExIDY2LjQyIEw5My4yMyA2NS43MyBNOTEuNTcgNzQuMDAgTDg4LjQ1IDcyLjIwIE04Ni43NyA4MC44NSBMODUuMjQgNzkuNTcgTTgwLjg1IDg2Ljc3IEw3OS41NyA4NS4yNCBNNzQuMDAgOTEuNTcgTDcyLjIwIDg4LjQ1IE02Ni40MiA5NS4xMSBMNjUuNzMgOTMuMjMgTTU4LjM0IDk3LjI3IEw1Ny45OSA5NS4zMCBNNTAuMDAgOTguMDAgTDUwLjAwIDk0LjQwIE00MS42NiA5Ny4yNyBMNDIuMDEgOTUuMzAgTTMzLjU4IDk1LjExIEwzNC4yNyA5My4yMyBNMjYuMDAgOTEuNTcgTDI3LjgwIDg4LjQ1IE0xOS4xNSA4Ni43NyBMMjAuNDMgODUuMjQgTTEzLjIzIDgwLjg1IEwxNC43NiA3OS41NyBNOC40MyA3NC4wMCBMMTEuNTUgNzIuMjAgTTQuODkgNjYuNDIgTDYuNzcgNjUuNzMgTTIuNzMgNTguMzQgTDQuNzAgNTcuOTkgTTIuMDAgNTAuMDAgTDUuNjAgNTAuMDAgTTIuNzMgNDEuNjYgTDQuNzAgNDIuMDEgTTQuODkgMzMuNTggTDYuNzcgMzQuMjcgTTguNDMgMjYuMDAgTDExLjU1IDI3LjgwIE0xMy4yMyAxOS4xNSBMMTQuNzYgMjAuNDMgTTE5LjE1IDEzLjIzIEwyMC40MyAxNC43NiBNMjYuMDAgOC40MyBMMjcuODAgMTEuNTUgTTMzLjU4IDQuODkgTDM0LjI3IDYuNzcgTTQxLjY2IDIuNzMgTDQyLjAxIDQuNzAiLz4KICAgIDxwYXRoIGQ9Ik01MCAxMyBMNTAgMiIvPgogIDwvZz4KICA8cG9seWdvbiBwb2ludHM9IjUwLDIgNDcuNiw5IDUyLjQsOSIgZmlsbD0icGFyYW0ob3V0bGluZSkgIzAwMDAwMCIvPgo8L3N2Zz4K')"/>
                  <Option type="int" name="type" value="3"/>
                </Option>
                <Option type="Map" name="size">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="expression" value="if(&quot;kind&quot; IN ('VOR', 'VOR/DME', 'VORTAC', 'TACAN') AND &quot;decl_deg&quot; IS NOT NULL, coalesce(@rose_mm, if((@rose_mm IS NOT NULL OR @map_scale &lt;= 300000), 30, 16)), 0)"/>
                  <Option type="int" name="type" value="3"/>
                </Option>
              </Option>
              <Option type="QString" name="type" value="collection"/>
            </Option>
          </data_defined_properties>
        </layer>
        <layer class="SimpleMarker" enabled="1" locked="0" pass="0">
          <Option type="Map">
            <Option type="QString" name="angle" value="0"/>
            <Option type="QString" name="cap_style" value="square"/>
            <Option type="QString" name="color" value="30,30,30,255"/>
            <Option type="QString" name="horizontal_anchor_point" value="1"/>
            <Option type="QString" name="joinstyle" value="bevel"/>
            <Option type="QString" name="name" value="circle"/>
            <Option type="QString" name="offset" value="0,0"/>
            <Option type="QString" name="offset_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="offset_unit" value="MM"/>
            <Option type="QString" name="outline_color" value="242,242,242,255"/>
            <Option type="QString" name="outline_style" value="solid"/>
            <Option type="QString" name="outline_width" value="0.4"/>
            <Option type="QString" name="outline_width_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="outline_width_unit" value="MM"/>
            <Option type="QString" name="scale_method" value="diameter"/>
            <Option type="QString" name="size" value="2.4"/>
            <Option type="QString" name="size_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="size_unit" value="MM"/>
            <Option type="QString" name="vertical_anchor_point" value="1"/>
          </Option>
          <prop k="angle" v="0"/>
          <prop k="cap_style" v="square"/>
          <prop k="color" v="30,30,30,255"/>
          <prop k="horizontal_anchor_point" v="1"/>
          <prop k="joinstyle" v="bevel"/>
          <prop k="name" v="circle"/>
          <prop k="offset" v="0,0"/>
          <prop k="offset_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="offset_unit" v="MM"/>
          <prop k="outline_color" v="242,242,242,255"/>
          <prop k="outline_style" v="solid"/>
          <prop k="outline_width" v="0.4"/>
          <prop k="outline_width_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="outline_width_unit" v="MM"/>
          <prop k="scale_method" v="diameter"/>
          <prop k="size" v="2.4"/>
          <prop k="size_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="size_unit" v="MM"/>
          <prop k="vertical_anchor_point" v="1"/>
          <data_defined_properties>
            <Option type="Map">
              <Option type="QString" name="name" value=""/>
              <Option name="properties"/>
              <Option type="QString" name="type" value="collection"/>
            </Option>
          </data_defined_properties>
        </layer>
        <layer class="SimpleMarker" enabled="1" locked="0" pass="0">
          <Option type="Map">
            <Option type="QString" name="angle" value="0"/>
            <Option type="QString" name="cap_style" value="square"/>
            <Option type="QString" name="color" value="242,242,242,255"/>
            <Option type="QString" name="horizontal_anchor_point" value="1"/>
            <Option type="QString" name="joinstyle" value="bevel"/>
            <Option type="QString" name="name" value="cross2"/>
            <Option type="QString" name="offset" value="0,0"/>
            <Option type="QString" name="offset_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="offset_unit" value="MM"/>
            <Option type="QString" name="outline_color" value="242,242,242,255"/>
            <Option type="QString" name="outline_style" value="solid"/>
            <Option type="QString" name="outline_width" value="0.5"/>
            <Option type="QString" name="outline_width_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="outline_width_unit" value="MM"/>
            <Option type="QString" name="scale_method" value="diameter"/>
            <Option type="QString" name="size" value="0"/>
            <Option type="QString" name="size_map_unit_scale" value="3x:0,0,0,0,0,0"/>
            <Option type="QString" name="size_unit" value="MM"/>
            <Option type="QString" name="vertical_anchor_point" value="1"/>
          </Option>
          <prop k="angle" v="0"/>
          <prop k="cap_style" v="square"/>
          <prop k="color" v="242,242,242,255"/>
          <prop k="horizontal_anchor_point" v="1"/>
          <prop k="joinstyle" v="bevel"/>
          <prop k="name" v="cross2"/>
          <prop k="offset" v="0,0"/>
          <prop k="offset_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="offset_unit" v="MM"/>
          <prop k="outline_color" v="242,242,242,255"/>
          <prop k="outline_style" v="solid"/>
          <prop k="outline_width" v="0.5"/>
          <prop k="outline_width_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="outline_width_unit" v="MM"/>
          <prop k="scale_method" v="diameter"/>
          <prop k="size" v="0"/>
          <prop k="size_map_unit_scale" v="3x:0,0,0,0,0,0"/>
          <prop k="size_unit" v="MM"/>
          <prop k="vertical_anchor_point" v="1"/>
          <data_defined_properties>
            <Option type="Map">
              <Option type="QString" name="name" value=""/>
              <Option type="Map" name="properties">
                <Option type="Map" name="size">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="expression" value="if(lower(coalesce(&quot;status&quot;, '')) IN ('out of service', 'u/s', 'unserviceable', 'decommissioned', 'shutdown'), 6, 0)"/>
                  <Option type="int" name="type" value="3"/>
                </Option>
              </Option>
              <Option type="QString" name="type" value="collection"/>
            </Option>
          </data_defined_properties>
        </layer>
      </symbol>
    </symbols>
    <rotation/>
    <sizescale/>
  </renderer-v2>
  <labeling type="rule-based">
    <rules key="root">
      <rule description="all" key="rule 0">
        <settings calloutType="simple">
          <text-style fieldName="&quot;ident&quot;" fontWeight="75" useSubstitutions="0" capitalization="0" fontSizeMapUnitScale="3x:0,0,0,0,0,0" textOrientation="horizontal" legendString="Aa" textColor="242,242,242,255" fontSize="9" fontUnderline="0" fontStrikeout="0" fontLetterSpacing="0" textOpacity="1" blendMode="0" fontItalic="0" fontWordSpacing="0" fontSizeUnit="Point" previewBkgrdColor="30,30,30,255" fontKerning="1" fontFamily="DejaVu Sans" allowHtml="0" isExpression="1" namedStyle="Bold" multilineHeight="1">
            <families>
              <family name="DejaVu Sans"/>
              <family name="Noto Sans"/>
              <family name="Open Sans"/>
              <family name="Arial"/>
              <family name="Helvetica"/>
            </families>
            <text-buffer bufferJoinStyle="128" bufferSize="0.80000000000000004" bufferSizeMapUnitScale="3x:0,0,0,0,0,0" bufferDraw="1" bufferBlendMode="0" bufferNoFill="1" bufferColor="30,30,30,255" bufferOpacity="1" bufferSizeUnits="MM"/>
            <text-mask maskOpacity="1" maskedSymbolLayers="" maskSizeUnits="MM" maskJoinStyle="128" maskType="0" maskSizeMapUnitScale="3x:0,0,0,0,0,0" maskEnabled="0" maskSize="1.5"/>
            <background shapeDraw="0" shapeRadiiX="0" shapeOpacity="1" shapeRadiiY="0" shapeOffsetMapUnitScale="3x:0,0,0,0,0,0" shapeFillColor="30,30,30,255" shapeBorderWidth="0" shapeSizeMapUnitScale="3x:0,0,0,0,0,0" shapeRadiiMapUnitScale="3x:0,0,0,0,0,0" shapeBorderWidthUnit="MM" shapeRotationType="0" shapeSVGFile="" shapeJoinStyle="64" shapeBorderColor="128,128,128,255" shapeBorderWidthMapUnitScale="3x:0,0,0,0,0,0" shapeRotation="0" shapeType="0" shapeOffsetUnit="MM" shapeRadiiUnit="MM" shapeOffsetX="0" shapeSizeX="0" shapeOffsetY="0" shapeSizeY="0" shapeBlendMode="0" shapeSizeUnit="MM" shapeSizeType="0">
              <symbol type="fill" force_rhr="0" clip_to_extent="1" alpha="1" name="fillSymbol">
                <data_defined_properties>
                  <Option type="Map">
                    <Option type="QString" name="name" value=""/>
                    <Option name="properties"/>
                    <Option type="QString" name="type" value="collection"/>
                  </Option>
                </data_defined_properties>
                <layer class="SimpleFill" enabled="1" locked="0" pass="0">
                  <Option type="Map">
                    <Option type="QString" name="border_width_map_unit_scale" value="3x:0,0,0,0,0,0"/>
                    <Option type="QString" name="color" value="30,30,30,255"/>
                    <Option type="QString" name="joinstyle" value="bevel"/>
                    <Option type="QString" name="offset" value="0,0"/>
                    <Option type="QString" name="offset_map_unit_scale" value="3x:0,0,0,0,0,0"/>
                    <Option type="QString" name="offset_unit" value="MM"/>
                    <Option type="QString" name="outline_color" value="128,128,128,255"/>
                    <Option type="QString" name="outline_style" value="no"/>
                    <Option type="QString" name="outline_width" value="0"/>
                    <Option type="QString" name="outline_width_unit" value="MM"/>
                    <Option type="QString" name="style" value="solid"/>
                  </Option>
                  <prop k="border_width_map_unit_scale" v="3x:0,0,0,0,0,0"/>
                  <prop k="color" v="30,30,30,255"/>
                  <prop k="joinstyle" v="bevel"/>
                  <prop k="offset" v="0,0"/>
                  <prop k="offset_map_unit_scale" v="3x:0,0,0,0,0,0"/>
                  <prop k="offset_unit" v="MM"/>
                  <prop k="outline_color" v="128,128,128,255"/>
                  <prop k="outline_style" v="no"/>
                  <prop k="outline_width" v="0"/>
                  <prop k="outline_width_unit" v="MM"/>
                  <prop k="style" v="solid"/>
                  <data_defined_properties>
                    <Option type="Map">
                      <Option type="QString" name="name" value=""/>
                      <Option name="properties"/>
                      <Option type="QString" name="type" value="collection"/>
                    </Option>
                  </data_defined_properties>
                </layer>
              </symbol>
            </background>
            <shadow shadowRadiusMapUnitScale="3x:0,0,0,0,0,0" shadowRadiusAlphaOnly="0" shadowOffsetUnit="MM" shadowOffsetGlobal="1" shadowUnder="0" shadowOpacity="0.69999999999999996" shadowColor="242,242,242,255" shadowDraw="0" shadowOffsetMapUnitScale="3x:0,0,0,0,0,0" shadowRadius="1.5" shadowScale="100" shadowOffsetAngle="135" shadowBlendMode="6" shadowOffsetDist="1" shadowRadiusUnit="MM"/>
            <dd_properties>
              <Option type="Map">
                <Option type="QString" name="name" value=""/>
                <Option name="properties"/>
                <Option type="QString" name="type" value="collection"/>
              </Option>
            </dd_properties>
            <substitutions/>
          </text-style>
          <text-format placeDirectionSymbol="0" plussign="0" formatNumbers="0" rightDirectionSymbol=">" multilineAlign="3" reverseDirectionSymbol="0" useMaxLineLengthForAutoWrap="1" decimals="3" wrapChar="" autoWrapLength="0" leftDirectionSymbol="&lt;" addDirectionSymbol="0"/>
          <placement placementFlags="10" rotationUnit="AngleDegrees" rotationAngle="0" yOffset="0" xOffset="0" overrunDistanceMapUnitScale="3x:0,0,0,0,0,0" overrunDistance="0" geometryGeneratorEnabled="0" layerType="UnknownGeometry" labelOffsetMapUnitScale="3x:0,0,0,0,0,0" lineAnchorClipping="0" placement="6" repeatDistanceMapUnitScale="3x:0,0,0,0,0,0" lineAnchorPercent="0.5" geometryGenerator="" maxCurvedCharAngleIn="25" geometryGeneratorType="PointGeometry" preserveRotation="1" distMapUnitScale="3x:0,0,0,0,0,0" quadOffset="4" centroidInside="0" maxCurvedCharAngleOut="-25" overrunDistanceUnit="MM" polygonPlacementFlags="2" distUnits="MM" predefinedPositionOrder="TR,TL,BR,BL,R,L,TSR,BSR" lineAnchorType="0" offsetType="0" repeatDistanceUnits="MM" repeatDistance="0" fitInPolygonOnly="0" centroidWhole="0" dist="3.2999999999999998" offsetUnits="MM" priority="9"/>
          <rendering upsidedownLabels="0" unplacedVisibility="0" obstacleType="1" displayAll="0" scaleMin="0" zIndex="0" scaleVisibility="0" minFeatureSize="0" fontLimitPixelSize="0" drawLabels="1" limitNumLabels="0" labelPerPart="0" maxNumLabels="2000" obstacle="1" fontMaxPixelSize="10000" scaleMax="0" obstacleFactor="1" fontMinPixelSize="0" mergeLines="0"/>
          <dd_properties>
            <Option type="Map">
              <Option type="QString" name="name" value=""/>
              <Option type="Map" name="properties">
                <Option type="Map" name="IsObstacle">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="expression" value="NOT coalesce(&quot;kind&quot; IN ('VOR', 'VOR/DME', 'VORTAC', 'TACAN') AND &quot;decl_deg&quot; IS NOT NULL AND (@rose_mm IS NOT NULL OR @map_scale &lt;= 300000), false)"/>
                  <Option type="int" name="type" value="3"/>
                </Option>
                <Option type="Map" name="PredefinedPositionOrder">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="int" name="type" value="1"/>
                  <Option type="QString" name="val" value="TR,TL,T,R,L,BR,BL,TSR,TSL,BSR,BSL,B"/>
                </Option>
              </Option>
              <Option type="QString" name="type" value="collection"/>
            </Option>
          </dd_properties>
          <callout type="simple">
            <Option type="Map">
              <Option type="QString" name="anchorPoint" value="pole_of_inaccessibility"/>
              <Option type="int" name="blendMode" value="0"/>
              <Option type="Map" name="ddProperties">
                <Option type="QString" name="name" value=""/>
                <Option name="properties"/>
                <Option type="QString" name="type" value="collection"/>
              </Option>
              <Option type="bool" name="drawToAllParts" value="false"/>
              <Option type="QString" name="enabled" value="0"/>
              <Option type="QString" name="labelAnchorPoint" value="point_on_exterior"/>
              <Option type="QString" name="lineSymbol" value="&lt;symbol type=&quot;line&quot; force_rhr=&quot;0&quot; clip_to_extent=&quot;1&quot; alpha=&quot;1&quot; name=&quot;symbol&quot;>&lt;data_defined_properties>&lt;Option type=&quot;Map&quot;>&lt;Option type=&quot;QString&quot; name=&quot;name&quot; value=&quot;&quot;/>&lt;Option name=&quot;properties&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;type&quot; value=&quot;collection&quot;/>&lt;/Option>&lt;/data_defined_properties>&lt;layer class=&quot;SimpleLine&quot; enabled=&quot;1&quot; locked=&quot;0&quot; pass=&quot;0&quot;>&lt;Option type=&quot;Map&quot;>&lt;Option type=&quot;QString&quot; name=&quot;align_dash_pattern&quot; value=&quot;0&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;capstyle&quot; value=&quot;square&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;customdash&quot; value=&quot;5;2&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;customdash_map_unit_scale&quot; value=&quot;3x:0,0,0,0,0,0&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;customdash_unit&quot; value=&quot;MM&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;dash_pattern_offset&quot; value=&quot;0&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;dash_pattern_offset_map_unit_scale&quot; value=&quot;3x:0,0,0,0,0,0&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;dash_pattern_offset_unit&quot; value=&quot;MM&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;draw_inside_polygon&quot; value=&quot;0&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;joinstyle&quot; value=&quot;bevel&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;line_color&quot; value=&quot;60,60,60,255&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;line_style&quot; value=&quot;solid&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;line_width&quot; value=&quot;0.3&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;line_width_unit&quot; value=&quot;MM&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;offset&quot; value=&quot;0&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;offset_map_unit_scale&quot; value=&quot;3x:0,0,0,0,0,0&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;offset_unit&quot; value=&quot;MM&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;ring_filter&quot; value=&quot;0&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;trim_distance_end&quot; value=&quot;0&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;trim_distance_end_map_unit_scale&quot; value=&quot;3x:0,0,0,0,0,0&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;trim_distance_end_unit&quot; value=&quot;MM&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;trim_distance_start&quot; value=&quot;0&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;trim_distance_start_map_unit_scale&quot; value=&quot;3x:0,0,0,0,0,0&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;trim_distance_start_unit&quot; value=&quot;MM&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;tweak_dash_pattern_on_corners&quot; value=&quot;0&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;use_custom_dash&quot; value=&quot;0&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;width_map_unit_scale&quot; value=&quot;3x:0,0,0,0,0,0&quot;/>&lt;/Option>&lt;prop k=&quot;align_dash_pattern&quot; v=&quot;0&quot;/>&lt;prop k=&quot;capstyle&quot; v=&quot;square&quot;/>&lt;prop k=&quot;customdash&quot; v=&quot;5;2&quot;/>&lt;prop k=&quot;customdash_map_unit_scale&quot; v=&quot;3x:0,0,0,0,0,0&quot;/>&lt;prop k=&quot;customdash_unit&quot; v=&quot;MM&quot;/>&lt;prop k=&quot;dash_pattern_offset&quot; v=&quot;0&quot;/>&lt;prop k=&quot;dash_pattern_offset_map_unit_scale&quot; v=&quot;3x:0,0,0,0,0,0&quot;/>&lt;prop k=&quot;dash_pattern_offset_unit&quot; v=&quot;MM&quot;/>&lt;prop k=&quot;draw_inside_polygon&quot; v=&quot;0&quot;/>&lt;prop k=&quot;joinstyle&quot; v=&quot;bevel&quot;/>&lt;prop k=&quot;line_color&quot; v=&quot;60,60,60,255&quot;/>&lt;prop k=&quot;line_style&quot; v=&quot;solid&quot;/>&lt;prop k=&quot;line_width&quot; v=&quot;0.3&quot;/>&lt;prop k=&quot;line_width_unit&quot; v=&quot;MM&quot;/>&lt;prop k=&quot;offset&quot; v=&quot;0&quot;/>&lt;prop k=&quot;offset_map_unit_scale&quot; v=&quot;3x:0,0,0,0,0,0&quot;/>&lt;prop k=&quot;offset_unit&quot; v=&quot;MM&quot;/>&lt;prop k=&quot;ring_filter&quot; v=&quot;0&quot;/>&lt;prop k=&quot;trim_distance_end&quot; v=&quot;0&quot;/>&lt;prop k=&quot;trim_distance_end_map_unit_scale&quot; v=&quot;3x:0,0,0,0,0,0&quot;/>&lt;prop k=&quot;trim_distance_end_unit&quot; v=&quot;MM&quot;/>&lt;prop k=&quot;trim_distance_start&quot; v=&quot;0&quot;/>&lt;prop k=&quot;trim_distance_start_map_unit_scale&quot; v=&quot;3x:0,0,0,0,0,0&quot;/>&lt;prop k=&quot;trim_distance_start_unit&quot; v=&quot;MM&quot;/>&lt;prop k=&quot;tweak_dash_pattern_on_corners&quot; v=&quot;0&quot;/>&lt;prop k=&quot;use_custom_dash&quot; v=&quot;0&quot;/>&lt;prop k=&quot;width_map_unit_scale&quot; v=&quot;3x:0,0,0,0,0,0&quot;/>&lt;data_defined_properties>&lt;Option type=&quot;Map&quot;>&lt;Option type=&quot;QString&quot; name=&quot;name&quot; value=&quot;&quot;/>&lt;Option name=&quot;properties&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;type&quot; value=&quot;collection&quot;/>&lt;/Option>&lt;/data_defined_properties>&lt;/layer>&lt;/symbol>"/>
              <Option type="double" name="minLength" value="0"/>
              <Option type="QString" name="minLengthMapUnitScale" value="3x:0,0,0,0,0,0"/>
              <Option type="QString" name="minLengthUnit" value="MM"/>
              <Option type="double" name="offsetFromAnchor" value="0"/>
              <Option type="QString" name="offsetFromAnchorMapUnitScale" value="3x:0,0,0,0,0,0"/>
              <Option type="QString" name="offsetFromAnchorUnit" value="MM"/>
              <Option type="double" name="offsetFromLabel" value="0"/>
              <Option type="QString" name="offsetFromLabelMapUnitScale" value="3x:0,0,0,0,0,0"/>
              <Option type="QString" name="offsetFromLabelUnit" value="MM"/>
            </Option>
          </callout>
        </settings>
      </rule>
      <rule filter="&quot;freq&quot; IS NOT NULL" scalemaxdenom="300000" description="&quot;freq&quot; IS NOT NULL" key="rule 1">
        <settings calloutType="simple">
          <text-style fieldName="&quot;freq&quot;" fontWeight="50" useSubstitutions="0" capitalization="0" fontSizeMapUnitScale="3x:0,0,0,0,0,0" textOrientation="horizontal" legendString="Aa" textColor="242,242,242,255" fontSize="7" fontUnderline="0" fontStrikeout="0" fontLetterSpacing="0" textOpacity="1" blendMode="0" fontItalic="0" fontWordSpacing="0" fontSizeUnit="Point" previewBkgrdColor="30,30,30,255" fontKerning="1" fontFamily="DejaVu Sans" allowHtml="0" isExpression="1" namedStyle="Book" multilineHeight="1">
            <families>
              <family name="DejaVu Sans"/>
              <family name="Noto Sans"/>
              <family name="Open Sans"/>
              <family name="Arial"/>
              <family name="Helvetica"/>
            </families>
            <text-buffer bufferJoinStyle="128" bufferSize="0.80000000000000004" bufferSizeMapUnitScale="3x:0,0,0,0,0,0" bufferDraw="1" bufferBlendMode="0" bufferNoFill="1" bufferColor="30,30,30,255" bufferOpacity="1" bufferSizeUnits="MM"/>
            <text-mask maskOpacity="1" maskedSymbolLayers="" maskSizeUnits="MM" maskJoinStyle="128" maskType="0" maskSizeMapUnitScale="3x:0,0,0,0,0,0" maskEnabled="0" maskSize="1.5"/>
            <background shapeDraw="0" shapeRadiiX="0" shapeOpacity="1" shapeRadiiY="0" shapeOffsetMapUnitScale="3x:0,0,0,0,0,0" shapeFillColor="30,30,30,255" shapeBorderWidth="0" shapeSizeMapUnitScale="3x:0,0,0,0,0,0" shapeRadiiMapUnitScale="3x:0,0,0,0,0,0" shapeBorderWidthUnit="MM" shapeRotationType="0" shapeSVGFile="" shapeJoinStyle="64" shapeBorderColor="128,128,128,255" shapeBorderWidthMapUnitScale="3x:0,0,0,0,0,0" shapeRotation="0" shapeType="0" shapeOffsetUnit="MM" shapeRadiiUnit="MM" shapeOffsetX="0" shapeSizeX="0" shapeOffsetY="0" shapeSizeY="0" shapeBlendMode="0" shapeSizeUnit="MM" shapeSizeType="0">
              <symbol type="fill" force_rhr="0" clip_to_extent="1" alpha="1" name="fillSymbol">
                <data_defined_properties>
                  <Option type="Map">
                    <Option type="QString" name="name" value=""/>
                    <Option name="properties"/>
                    <Option type="QString" name="type" value="collection"/>
                  </Option>
                </data_defined_properties>
                <layer class="SimpleFill" enabled="1" locked="0" pass="0">
                  <Option type="Map">
                    <Option type="QString" name="border_width_map_unit_scale" value="3x:0,0,0,0,0,0"/>
                    <Option type="QString" name="color" value="30,30,30,255"/>
                    <Option type="QString" name="joinstyle" value="bevel"/>
                    <Option type="QString" name="offset" value="0,0"/>
                    <Option type="QString" name="offset_map_unit_scale" value="3x:0,0,0,0,0,0"/>
                    <Option type="QString" name="offset_unit" value="MM"/>
                    <Option type="QString" name="outline_color" value="128,128,128,255"/>
                    <Option type="QString" name="outline_style" value="no"/>
                    <Option type="QString" name="outline_width" value="0"/>
                    <Option type="QString" name="outline_width_unit" value="MM"/>
                    <Option type="QString" name="style" value="solid"/>
                  </Option>
                  <prop k="border_width_map_unit_scale" v="3x:0,0,0,0,0,0"/>
                  <prop k="color" v="30,30,30,255"/>
                  <prop k="joinstyle" v="bevel"/>
                  <prop k="offset" v="0,0"/>
                  <prop k="offset_map_unit_scale" v="3x:0,0,0,0,0,0"/>
                  <prop k="offset_unit" v="MM"/>
                  <prop k="outline_color" v="128,128,128,255"/>
                  <prop k="outline_style" v="no"/>
                  <prop k="outline_width" v="0"/>
                  <prop k="outline_width_unit" v="MM"/>
                  <prop k="style" v="solid"/>
                  <data_defined_properties>
                    <Option type="Map">
                      <Option type="QString" name="name" value=""/>
                      <Option name="properties"/>
                      <Option type="QString" name="type" value="collection"/>
                    </Option>
                  </data_defined_properties>
                </layer>
              </symbol>
            </background>
            <shadow shadowRadiusMapUnitScale="3x:0,0,0,0,0,0" shadowRadiusAlphaOnly="0" shadowOffsetUnit="MM" shadowOffsetGlobal="1" shadowUnder="0" shadowOpacity="0.69999999999999996" shadowColor="242,242,242,255" shadowDraw="0" shadowOffsetMapUnitScale="3x:0,0,0,0,0,0" shadowRadius="1.5" shadowScale="100" shadowOffsetAngle="135" shadowBlendMode="6" shadowOffsetDist="1" shadowRadiusUnit="MM"/>
            <dd_properties>
              <Option type="Map">
                <Option type="QString" name="name" value=""/>
                <Option name="properties"/>
                <Option type="QString" name="type" value="collection"/>
              </Option>
            </dd_properties>
            <substitutions/>
          </text-style>
          <text-format placeDirectionSymbol="0" plussign="0" formatNumbers="0" rightDirectionSymbol=">" multilineAlign="3" reverseDirectionSymbol="0" useMaxLineLengthForAutoWrap="1" decimals="3" wrapChar="" autoWrapLength="0" leftDirectionSymbol="&lt;" addDirectionSymbol="0"/>
          <placement placementFlags="10" rotationUnit="AngleDegrees" rotationAngle="0" yOffset="0" xOffset="0" overrunDistanceMapUnitScale="3x:0,0,0,0,0,0" overrunDistance="0" geometryGeneratorEnabled="0" layerType="UnknownGeometry" labelOffsetMapUnitScale="3x:0,0,0,0,0,0" lineAnchorClipping="0" placement="6" repeatDistanceMapUnitScale="3x:0,0,0,0,0,0" lineAnchorPercent="0.5" geometryGenerator="" maxCurvedCharAngleIn="25" geometryGeneratorType="PointGeometry" preserveRotation="1" distMapUnitScale="3x:0,0,0,0,0,0" quadOffset="4" centroidInside="0" maxCurvedCharAngleOut="-25" overrunDistanceUnit="MM" polygonPlacementFlags="2" distUnits="MM" predefinedPositionOrder="TR,TL,BR,BL,R,L,TSR,BSR" lineAnchorType="0" offsetType="0" repeatDistanceUnits="MM" repeatDistance="0" fitInPolygonOnly="0" centroidWhole="0" dist="3.2999999999999998" offsetUnits="MM" priority="1"/>
          <rendering upsidedownLabels="0" unplacedVisibility="0" obstacleType="1" displayAll="0" scaleMin="0" zIndex="0" scaleVisibility="0" minFeatureSize="0" fontLimitPixelSize="0" drawLabels="1" limitNumLabels="0" labelPerPart="0" maxNumLabels="2000" obstacle="1" fontMaxPixelSize="10000" scaleMax="0" obstacleFactor="1" fontMinPixelSize="0" mergeLines="0"/>
          <dd_properties>
            <Option type="Map">
              <Option type="QString" name="name" value=""/>
              <Option type="Map" name="properties">
                <Option type="Map" name="IsObstacle">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="QString" name="expression" value="NOT coalesce(&quot;kind&quot; IN ('VOR', 'VOR/DME', 'VORTAC', 'TACAN') AND &quot;decl_deg&quot; IS NOT NULL AND (@rose_mm IS NOT NULL OR @map_scale &lt;= 300000), false)"/>
                  <Option type="int" name="type" value="3"/>
                </Option>
                <Option type="Map" name="PredefinedPositionOrder">
                  <Option type="bool" name="active" value="true"/>
                  <Option type="int" name="type" value="1"/>
                  <Option type="QString" name="val" value="R,L,TR,BR,TL,BL,TSR,BSR,TSL,BSL,T,B"/>
                </Option>
              </Option>
              <Option type="QString" name="type" value="collection"/>
            </Option>
          </dd_properties>
          <callout type="simple">
            <Option type="Map">
              <Option type="QString" name="anchorPoint" value="pole_of_inaccessibility"/>
              <Option type="int" name="blendMode" value="0"/>
              <Option type="Map" name="ddProperties">
                <Option type="QString" name="name" value=""/>
                <Option name="properties"/>
                <Option type="QString" name="type" value="collection"/>
              </Option>
              <Option type="bool" name="drawToAllParts" value="false"/>
              <Option type="QString" name="enabled" value="0"/>
              <Option type="QString" name="labelAnchorPoint" value="point_on_exterior"/>
              <Option type="QString" name="lineSymbol" value="&lt;symbol type=&quot;line&quot; force_rhr=&quot;0&quot; clip_to_extent=&quot;1&quot; alpha=&quot;1&quot; name=&quot;symbol&quot;>&lt;data_defined_properties>&lt;Option type=&quot;Map&quot;>&lt;Option type=&quot;QString&quot; name=&quot;name&quot; value=&quot;&quot;/>&lt;Option name=&quot;properties&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;type&quot; value=&quot;collection&quot;/>&lt;/Option>&lt;/data_defined_properties>&lt;layer class=&quot;SimpleLine&quot; enabled=&quot;1&quot; locked=&quot;0&quot; pass=&quot;0&quot;>&lt;Option type=&quot;Map&quot;>&lt;Option type=&quot;QString&quot; name=&quot;align_dash_pattern&quot; value=&quot;0&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;capstyle&quot; value=&quot;square&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;customdash&quot; value=&quot;5;2&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;customdash_map_unit_scale&quot; value=&quot;3x:0,0,0,0,0,0&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;customdash_unit&quot; value=&quot;MM&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;dash_pattern_offset&quot; value=&quot;0&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;dash_pattern_offset_map_unit_scale&quot; value=&quot;3x:0,0,0,0,0,0&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;dash_pattern_offset_unit&quot; value=&quot;MM&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;draw_inside_polygon&quot; value=&quot;0&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;joinstyle&quot; value=&quot;bevel&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;line_color&quot; value=&quot;60,60,60,255&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;line_style&quot; value=&quot;solid&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;line_width&quot; value=&quot;0.3&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;line_width_unit&quot; value=&quot;MM&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;offset&quot; value=&quot;0&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;offset_map_unit_scale&quot; value=&quot;3x:0,0,0,0,0,0&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;offset_unit&quot; value=&quot;MM&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;ring_filter&quot; value=&quot;0&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;trim_distance_end&quot; value=&quot;0&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;trim_distance_end_map_unit_scale&quot; value=&quot;3x:0,0,0,0,0,0&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;trim_distance_end_unit&quot; value=&quot;MM&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;trim_distance_start&quot; value=&quot;0&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;trim_distance_start_map_unit_scale&quot; value=&quot;3x:0,0,0,0,0,0&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;trim_distance_start_unit&quot; value=&quot;MM&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;tweak_dash_pattern_on_corners&quot; value=&quot;0&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;use_custom_dash&quot; value=&quot;0&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;width_map_unit_scale&quot; value=&quot;3x:0,0,0,0,0,0&quot;/>&lt;/Option>&lt;prop k=&quot;align_dash_pattern&quot; v=&quot;0&quot;/>&lt;prop k=&quot;capstyle&quot; v=&quot;square&quot;/>&lt;prop k=&quot;customdash&quot; v=&quot;5;2&quot;/>&lt;prop k=&quot;customdash_map_unit_scale&quot; v=&quot;3x:0,0,0,0,0,0&quot;/>&lt;prop k=&quot;customdash_unit&quot; v=&quot;MM&quot;/>&lt;prop k=&quot;dash_pattern_offset&quot; v=&quot;0&quot;/>&lt;prop k=&quot;dash_pattern_offset_map_unit_scale&quot; v=&quot;3x:0,0,0,0,0,0&quot;/>&lt;prop k=&quot;dash_pattern_offset_unit&quot; v=&quot;MM&quot;/>&lt;prop k=&quot;draw_inside_polygon&quot; v=&quot;0&quot;/>&lt;prop k=&quot;joinstyle&quot; v=&quot;bevel&quot;/>&lt;prop k=&quot;line_color&quot; v=&quot;60,60,60,255&quot;/>&lt;prop k=&quot;line_style&quot; v=&quot;solid&quot;/>&lt;prop k=&quot;line_width&quot; v=&quot;0.3&quot;/>&lt;prop k=&quot;line_width_unit&quot; v=&quot;MM&quot;/>&lt;prop k=&quot;offset&quot; v=&quot;0&quot;/>&lt;prop k=&quot;offset_map_unit_scale&quot; v=&quot;3x:0,0,0,0,0,0&quot;/>&lt;prop k=&quot;offset_unit&quot; v=&quot;MM&quot;/>&lt;prop k=&quot;ring_filter&quot; v=&quot;0&quot;/>&lt;prop k=&quot;trim_distance_end&quot; v=&quot;0&quot;/>&lt;prop k=&quot;trim_distance_end_map_unit_scale&quot; v=&quot;3x:0,0,0,0,0,0&quot;/>&lt;prop k=&quot;trim_distance_end_unit&quot; v=&quot;MM&quot;/>&lt;prop k=&quot;trim_distance_start&quot; v=&quot;0&quot;/>&lt;prop k=&quot;trim_distance_start_map_unit_scale&quot; v=&quot;3x:0,0,0,0,0,0&quot;/>&lt;prop k=&quot;trim_distance_start_unit&quot; v=&quot;MM&quot;/>&lt;prop k=&quot;tweak_dash_pattern_on_corners&quot; v=&quot;0&quot;/>&lt;prop k=&quot;use_custom_dash&quot; v=&quot;0&quot;/>&lt;prop k=&quot;width_map_unit_scale&quot; v=&quot;3x:0,0,0,0,0,0&quot;/>&lt;data_defined_properties>&lt;Option type=&quot;Map&quot;>&lt;Option type=&quot;QString&quot; name=&quot;name&quot; value=&quot;&quot;/>&lt;Option name=&quot;properties&quot;/>&lt;Option type=&quot;QString&quot; name=&quot;type&quot; value=&quot;collection&quot;/>&lt;/Option>&lt;/data_defined_properties>&lt;/layer>&lt;/symbol>"/>
              <Option type="double" name="minLength" value="0"/>
              <Option type="QString" name="minLengthMapUnitScale" value="3x:0,0,0,0,0,0"/>
              <Option type="QString" name="minLengthUnit" value="MM"/>
              <Option type="double" name="offsetFromAnchor" value="0"/>
              <Option type="QString" name="offsetFromAnchorMapUnitScale" value="3x:0,0,0,0,0,0"/>
              <Option type="QString" name="offsetFromAnchorUnit" value="MM"/>
              <Option type="double" name="offsetFromLabel" value="0"/>
              <Option type="QString" name="offsetFromLabelMapUnitScale" value="3x:0,0,0,0,0,0"/>
              <Option type="QString" name="offsetFromLabelUnit" value="MM"/>
            </Option>
          </callout>
        </settings>
      </rule>
    </rules>
  </labeling>
  <blendMode>0</blendMode>
  <featureBlendMode>0</featureBlendMode>
  <layerGeometryType>0</layerGeometryType>
</qgis>
